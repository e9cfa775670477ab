// What would help: what `fit` and `explain` found, each with what comes of it and a button that does it.

import {useEffect, useState} from 'preact/hooks';
import type {Answer, Card, Explained, Fault, Frame} from '../answers';
import type {State, Work} from '../work';
import {Known} from './known';
import {Grids} from './grids';

interface Found {
  revision: number;
  cards: Card[];
  says: {title: string; text: string}[];
  faults: Fault[];
  question: Explained['question'];
  tooMuch: Explained['too_much'];
}

const kKinds = ['fit', 'explain'] as const;
const kTitles = {fit: 'All that fit found', explain: 'All that explain found'};

function found(answers: Answer<Explained>[], revision: number): Found {
  const all: Found = {revision, cards: [], says: [], faults: [], question: undefined, tooMuch: undefined};
  const seen = new Set<string>();
  answers.forEach((answer, i) => {
    if (!answer.ok) {
      all.faults.push(...answer.faults);
      return;
    }
    for (const card of answer.apply ?? []) {
      const does = JSON.stringify(card.changes);
      if (seen.has(does)) continue;  // fit and explain agree
      seen.add(does);
      all.cards.push(card);
    }
    all.says.push({title: kTitles[kKinds[i]!], text: answer.text});
    all.question ??= answer.question;
    all.tooMuch ??= answer.too_much;
  });
  return all;
}

const isMistake = (card: Card) => card.kind === 'mistake';

export function Mend({work, state}: {work: Work; state: State}) {
  return (
    <>
      <WhatHelps work={work} state={state} />
      <Grids work={work} state={state} />
    </>
  );
}

function WhatHelps({work, state}: {work: Work; state: State}) {
  const [seen, see] = useState<Found>();
  const [outcomes, setOutcomes] = useState<string[]>([]);
  const [share, setShare] = useState(0);
  const revision = work.revision;
  useEffect(() => {
    if (state.dragging) return;
    let current = true;
    work.helper.onProgress = (done) => setShare(done);
    const look = async () => {
      setOutcomes([]);
      const answers = await work.ask<Explained>(kKinds.map((kind) => ({do: kind, format: 'text', ...(kind === 'explain' ? work.evidence() : {})})));
      if (!current || answers.length === 0) return;
      const all = found(answers, revision);
      see(all);
      const then = await work.outcomes(all.cards.map((card) => card.changes));
      if (current) setOutcomes(then.map(outcome));
    };
    void look();
    return () => { current = false; };
  }, [work, revision, state.dragging]);
  const now = seen?.revision === revision ? seen : undefined;
  return (
    <>
      {now ? <Mistakes work={work} found={now} outcomes={outcomes} />
        : <p class="busy" role="status">Looking for what would help{share > 0 ? `, ${Math.round(100 * share)} %` : ''} …</p>}
      <Known work={work} state={state} question={now?.question} />
      {now ? <Works work={work} found={now} outcomes={outcomes} /> : null}
    </>
  );
}

interface FoundProps {
  work: Work;
  found: Found;
  outcomes: string[];
}

function Cards({work, found, outcomes, has}: FoundProps & {has(card: Card): boolean}) {
  return (
    <ul class="cards">{found.cards.map((card, i) => has(card) ? (
      <CardToApply work={work} card={card} then={outcomes[i] ?? ''} />) : null)}</ul>
  );
}

// That too much is asked for stands among them, by how likely it is.
function Mistakes({work, found, outcomes}: FoundProps) {
  const {cards, tooMuch, faults} = found;
  if (cards.length === 0 && faults.length === 0 && !tooMuch) return <p>There is nothing to mend.</p>;
  if (!cards.some(isMistake) && !tooMuch) return null;
  const much = tooMuch ? <p class="too-much">{tooMuch.says}</p> : null;
  return (
    <section class="group">
      <h2>A mistake in the numbers?</h2>
      {tooMuch?.first ? much : null}
      {cards.some(isMistake) ? <Cards work={work} found={found} outcomes={outcomes} has={isMistake} /> : null}
      {tooMuch?.first ? null : much}
    </section>
  );
}

function Works({work, found, outcomes}: FoundProps) {
  const works = (card: Card) => !isMistake(card);
  return (
    <>
      {found.cards.some(works) ? (
        <section class="group">
          <h2>What works</h2>
          <Cards work={work} found={found} outcomes={outcomes} has={works} />
        </section>
      ) : null}
      {found.faults.map((fault) => <p class="fault">{fault.message}</p>)}
      {found.says.map(({title, text}) => <details><summary>{title}</summary><pre tabIndex={0}>{text}</pre></details>)}
    </>
  );
}

function outcome(answer: Answer<Frame>): string {
  if (!answer.ok) return '';
  const {points, reachable} = answer.counts;
  return reachable === points ? `then all ${points} points are reachable` : `then ${reachable} of ${points} points are reachable`;
}

function CardToApply({work, card, then}: {work: Work; card: Card; then: string}) {
  return (
    <li class="card">
      <h3>{card.title}</h3>
      <p>{card.says}</p>
      {card.confirm ? <p class="hint">{card.confirm}</p> : null}
      <p class="apply"><button type="button" onClick={() => void work.change(card.changes, card.title)}>Apply</button>
        {then ? <small>{then}</small> : null}</p>
    </li>
  );
}
