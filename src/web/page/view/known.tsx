// What is known of the machine beside its numbers: what somebody saw, and what its controller did. It
// changes what is likely; the engine weighs it.

import {useRef, useState} from 'preact/hooks';
import type {Evidence, Question} from '../answers';
import type {State, Work} from '../work';

interface KnownProps {
  work: Work;
  state: State;
  question: Question | undefined;
}

export function Known({work, state, question}: KnownProps) {
  const section = useRef<HTMLElement>(null);
  const {evidence} = state;
  const learn = (part: Partial<Evidence>, did: string) => {
    section.current?.focus();  // the button that was pressed goes away
    work.learn({...evidence, ...part}, did);
  };
  return (
    <section class="group" aria-labelledby="known" tabIndex={-1} ref={section}>
      <h2 id="known">What is known of the machine</h2>
      {question ? <Ask question={question} answered={(one) => learn({seen: [...evidence.seen, {...one, asks: question.asks}]}, 'an answer')} /> : null}
      <Controller work={work} state={state} told={(point, accepted) => learn({
        observed: [...evidence.observed.filter((one) => one.point !== point), {point, accepted}]}, `what it did at ${point}`)} />
      {evidence.seen.length + evidence.observed.length > 0 ? <ul class="known">
        {evidence.seen.map((one) => (
          <li>{one.asks} <b>{one.says}</b> <TakeBack what={one.asks} does={() => learn({seen: evidence.seen.filter((other) => other !== one)}, 'an answer')} /></li>
        ))}
        {evidence.observed.map((one) => (
          <li>{one.point}: <b>{one.accepted ? 'accepted' : 'refused'}</b> <TakeBack what={one.point}
            does={() => learn({observed: evidence.observed.filter((other) => other !== one)}, `what it did at ${one.point}`)} /></li>
        ))}
      </ul> : null}
    </section>
  );
}

function Ask({question, answered}: {question: Question; answered(one: {answer: string; says: string}): void}) {
  return (
    <div class="card" role="group" aria-label="The next thing to find out">
      <p>{question.asks}</p>
      <ul class="answers">{question.answers.map((one) => (
        <li><button type="button" onClick={() => answered(one)}>{one.says}</button> <small>then {one.means}</small></li>
      ))}</ul>
    </div>
  );
}

function Controller({work, state, told}: {work: Work; state: State; told(point: string, accepted: boolean): void}) {
  const points = state.frame?.points ?? [];
  const [chosen, choose] = useState<string>();
  if (points.length === 0) return null;
  const put = points.find((point) => point.probe[0] === state.head?.[0] && point.probe[1] === state.head[1]);
  const at = points.find((point) => point.name === chosen) ?? put ?? points[0]!;
  return (
    <div class="controller" role="group" aria-label="What the controller did">
      <label>What did the controller do, told to probe
        <select value={at.name} onChange={(event) => choose(event.currentTarget.value)}
                onFocus={() => work.point(at.probe)} onBlur={() => work.point(undefined)}>
          {points.map((point) => <option value={point.name}>{point.name}</option>)}
        </select>
      </label>
      <button type="button" onClick={() => told(at.name, false)}>It refused</button>
      <button type="button" onClick={() => told(at.name, true)}>It accepted</button>
    </div>
  );
}

function TakeBack({what, does}: {what: string; does(): void}) {
  return <button type="button" aria-label={`Take back: ${what}`} onClick={does}>Take back</button>;
}
