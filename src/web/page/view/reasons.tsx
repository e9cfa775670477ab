// Why the points are as they are: those with the same reason together. To point at one, or to reach
// it with Tab, draws the head there.

import {useMemo, useState} from 'preact/hooks';
import type {Frame, Pair, PlanPoint} from '../answers';
import type {State, Work} from '../work';
import {signs} from './app';

const kGroupsAtFirst = 10;
const kNamesAtFirst = 20;  // of one reason

const rank = {unreachable: 0, marginal: 1, reachable: 2};

interface Group {
  verdict: PlanPoint['verdict'];
  reason: string;
  points: PlanPoint[];
}

function grouped(points: PlanPoint[]): Group[] {
  const groups = new Map<string, Group>();
  const ordered = [...points].sort((a, b) => rank[a.verdict] - rank[b.verdict] || a.id - b.id);
  for (const point of ordered) {
    const key = point.verdict + point.reason;
    const group = groups.get(key) ?? {verdict: point.verdict, reason: point.reason, points: []};
    group.points.push(point);
    groups.set(key, group);
  }
  return [...groups.values()];
}

export function Reasons({work, state}: {work: Work; state: State}) {
  const frame = state.frame!;
  const {points = []} = frame;
  const [all, showAll] = useState(false);
  const {head} = state;
  // As long as the points are the same list, so is this one.
  return useMemo(() => <List work={work} frame={frame} points={points} head={head} all={all} showAll={showAll} />, [work, points, head, all]);
}

interface ListProps {
  work: Work;
  frame: Frame;
  points: PlanPoint[];
  head: Pair | undefined;
  all: boolean;
  showAll(yes: boolean): void;
}

function List({work, frame, points, head, all, showAll}: ListProps) {
  const groups = grouped(points);
  const shown = all ? groups : groups.slice(0, kGroupsAtFirst);
  const more = shown.length < groups.length || groups.some((group) => group.points.length > kNamesAtFirst);
  const sentences = [...frame.empty, frame.tightest, frame.home, frame.moves, frame.coverage, ...frame.remarks]
    .filter((sentence) => sentence !== '');
  return (
    <>
      <ul class="points">{shown.map((group) => (
        <Reason key={group.verdict + group.reason} work={work} head={head} group={group} most={all ? Infinity : kNamesAtFirst} />
      ))}</ul>
      {more || all ? (
        <button type="button" class="more" onClick={() => showAll(!all)}>
          {all ? 'Show fewer' : `Show all ${points.length} points`}</button>
      ) : null}
      <div class="sentences">{sentences.map((sentence) => <p>{sentence}</p>)}</div>
    </>
  );
}

function isPut(head: Pair | undefined, point: PlanPoint): boolean {
  return head !== undefined && head[0] === point.probe[0] && head[1] === point.probe[1];
}

function Reason({work, head, group, most}: {work: Work; head: Pair | undefined; group: Group; most: number}) {
  const {verdict, reason, points} = group;
  const left = points.length - most;
  return (
    <li class={`reason ${verdict}`}>
      <svg viewBox="0 0 24 24" aria-hidden="true"><path d={signs[verdict]} /></svg>
      <div class="where">
        {points.slice(0, most).map((point) => <Name key={point.id} work={work} point={point} put={isPut(head, point)} />)}
        {left > 0 ? <span class="word">and {left} more</span> : null}
        <span class="word">{verdict}</span>
      </div>
      <p class="why">{reason}</p>
    </li>
  );
}

function Name({work, point, put}: {work: Work; point: PlanPoint; put: boolean}) {
  return (
    <button type="button" class="point" aria-pressed={put} aria-label={`${point.name}, ${point.verdict}: ${point.reason}`}
            onMouseEnter={() => work.point(point.probe)} onMouseLeave={() => work.point(undefined)}
            onFocus={() => work.point(point.probe)} onBlur={() => work.point(undefined)}
            onClick={() => work.putHead(put ? undefined : point.probe)}>{point.name}</button>
  );
}
