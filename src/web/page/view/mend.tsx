// What would help: what `fit` and `explain` found, each with what comes of it and a button that does it.

import {useEffect, useState} from 'preact/hooks';
import type {Answer, Card, Fault, Frame, Told} from '../answers';
import type {State, Work} from '../work';
import {Grids} from './grids';

interface Found {
  revision: number;
  cards: Card[];
  says: {title: string; text: string}[];
  faults: Fault[];
}

const kKinds = ['fit', 'explain'] as const;
const kTitles = {fit: 'All that fit found', explain: 'All that explain found'};

function found(answers: Answer<Told>[], revision: number): Found {
  const all: Found = {revision, cards: [], says: [], faults: []};
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
  });
  return all;
}

const kGroups = [
  {title: 'A mistake in the numbers?', has: (card: Card) => card.kind === 'mistake'},
  {title: 'What works', has: (card: Card) => card.kind !== 'mistake'},
];

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
      const answers = await work.ask<Told>(kKinds.map((kind) => ({do: kind, format: 'text'})));
      if (!current || answers.length === 0) return;
      const all = found(answers, revision);
      see(all);
      const then = await work.outcomes(all.cards.map((card) => card.changes));
      if (current) setOutcomes(then.map(outcome));
    };
    void look();
    return () => { current = false; };
  }, [work, revision, state.dragging]);
  if (!seen || seen.revision !== revision) {
    return <p class="busy" role="status">Looking for what would help{share > 0 ? `, ${Math.round(100 * share)} %` : ''} …</p>;
  }
  return (
    <>
      {seen.cards.length === 0 && seen.faults.length === 0 ? <p>There is nothing to mend.</p> : null}
      {kGroups.map(({title, has}) => seen.cards.some(has) ? (
        <section class="group">
          <h2>{title}</h2>
          <ul class="cards">{seen.cards.map((card, i) => has(card) ? (
            <CardToApply work={work} card={card} then={outcomes[i] ?? ''} />) : null)}</ul>
        </section>
      ) : null)}
      {seen.faults.map((fault) => <p class="fault">{fault.message}</p>)}
      {seen.says.map(({title, text}) => <details><summary>{title}</summary><pre tabIndex={0}>{text}</pre></details>)}
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
