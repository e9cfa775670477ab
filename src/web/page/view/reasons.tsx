// Each point: its verdict and why. To point at one, or to reach it with Tab, draws the head there.

import {useState} from 'preact/hooks';
import type {PlanPoint} from '../answers';
import type {State, Work} from '../work';
import {signs} from './app';

const kShownAtFirst = 14;

const rank = {unreachable: 0, marginal: 1, reachable: 2};

function ordered(points: PlanPoint[]): PlanPoint[] {
  return [...points].sort((a, b) => rank[a.verdict] - rank[b.verdict] || a.id - b.id);
}

export function Reasons({work, state}: {work: Work; state: State}) {
  const frame = state.frame!;
  const [all, showAll] = useState(false);
  const points = ordered(frame.points);
  const shown = all ? points : points.slice(0, kShownAtFirst);
  const sentences = [...frame.empty, frame.tightest, frame.home, frame.moves, frame.coverage, ...frame.remarks]
    .filter((sentence) => sentence !== '');
  return (
    <>
      <ul class="points">{shown.map((point) => <Row key={point.id} work={work} point={point}
                                                     put={isPut(state, point)} />)}</ul>
      {points.length > shown.length || all ? (
        <button type="button" class="more" onClick={() => showAll(!all)}>
          {all ? 'Show fewer' : `Show all ${points.length} points`}</button>
      ) : null}
      <div class="sentences">{sentences.map((sentence) => <p>{sentence}</p>)}</div>
    </>
  );
}

function isPut(state: State, point: PlanPoint): boolean {
  return state.head !== undefined && state.head[0] === point.probe[0] && state.head[1] === point.probe[1];
}

function Row({work, point, put}: {work: Work; point: PlanPoint; put: boolean}) {
  return (
    <li>
      <button type="button" class={`point ${point.verdict}`} aria-pressed={put}
              onMouseEnter={() => work.point(point.probe)} onMouseLeave={() => work.point(undefined)}
              onFocus={() => work.point(point.probe)} onBlur={() => work.point(undefined)}
              onClick={() => work.putHead(put ? undefined : point.probe)}>
        <svg viewBox="0 0 24 24" aria-hidden="true"><path d={signs[point.verdict]} /></svg>
        <span class="name">{point.name}</span> <span class="word">{point.verdict}</span>{' '}
        <span class="why">{point.reason}</span>
      </button>
    </li>
  );
}
