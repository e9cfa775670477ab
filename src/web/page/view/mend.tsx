// What would help: what `fit` and `explain` found, each with a button that does it.

import {useEffect, useState} from 'preact/hooks';
import type {Answer, Card, Fault, Told} from '../answers';
import type {State, Work} from '../work';

interface Found {
  revision: number;
  cards: (Card & {from: 'fit' | 'explain'})[];
  says: {title: string; text: string}[];
  faults: Fault[];
}

const kKinds = ['fit', 'explain'] as const;
const kTitles = {fit: 'All that fit found', explain: 'All that explain found'};

function found(answers: Answer<Told>[], revision: number): Found {
  const all: Found = {revision, cards: [], says: [], faults: []};
  answers.forEach((answer, i) => {
    const from = kKinds[i]!;
    if (!answer.ok) {
      all.faults.push(...answer.faults);
      return;
    }
    for (const card of answer.apply ?? []) all.cards.push({...card, from});
    all.says.push({title: kTitles[from], text: answer.text});
  });
  return all;
}

export function Mend({work, state}: {work: Work; state: State}) {
  const [seen, see] = useState<Found>();
  const [share, setShare] = useState(0);
  const revision = work.revision;
  useEffect(() => {
    if (state.dragging) return;
    let current = true;
    work.helper.onProgress = (done) => setShare(done);
    void work.ask<Told>(kKinds.map((kind) => ({do: kind, format: 'text'}))).then((answers) => {
      if (current && answers.length > 0) see(found(answers, revision));
    });
    return () => { current = false; };
  }, [work, revision, state.dragging]);
  if (!seen || seen.revision !== revision) {
    return <p class="busy" role="status">Looking for what would help{share > 0 ? `, ${Math.round(100 * share)} %` : ''} …</p>;
  }
  return (
    <>
      {seen.cards.length === 0 && seen.faults.length === 0 ? <p>There is nothing to mend.</p> : null}
      <ul class="cards">{seen.cards.map((card) => (
        <li class="card">
          <h2>{card.title}</h2>
          <p>{card.says}</p>
          {card.confirm ? <p class="hint">{card.confirm}</p> : null}
          <button type="button" onClick={() => void work.change(card.changes, card.title)}>Apply</button>
        </li>
      ))}</ul>
      {seen.faults.map((fault) => <p class="fault">{fault.message}</p>)}
      {seen.says.map(({title, text}) => <details><summary>{title}</summary><pre tabIndex={0}>{text}</pre></details>)}
    </>
  );
}
