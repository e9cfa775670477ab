// What can be dragged, and which values of the setup follow it. Whether they will do, the engine says.

import type {Box, Changes, Frame, Obstacle, Pair, Setup} from './answers';
import {shownNumber, tidy} from './typed';
import type {State, Work} from './work';

export interface Grip {
  id: string;
  kind: 'place' | 'side-x' | 'side-y' | 'box';
  did: string;           // what undoing it takes back
  says: string;          // for those who hear the page
  at: Pair;              // what is dragged, mm
  shownAt: Pair;         // where the knob is, mm
  line?: [Pair, Pair];
  box?: Box;
  changes(to: Pair): Changes;
  nozzle?: Pair;         // what the offset is measured from
  head?(to: Pair): Pair; // where the probe is drawn meanwhile
}

const plus = (a: Pair, b: Pair): Pair => [tidy(a[0] + b[0]), tidy(a[1] + b[1])];
const minus = (a: Pair, b: Pair): Pair => [tidy(a[0] - b[0]), tidy(a[1] - b[1])];
const words = (at: Pair) => `${shownNumber(at[0])}, ${shownNumber(at[1])}`;

// Where the nozzle is drawn when the offset is shown: the head's place, the homing point, or the bed's middle.
function nozzleShown(state: State, frame: Frame): Pair {
  if (state.head) return minus(state.head, frame.handles.offset);
  if (frame.handles.home) return frame.handles.home.nozzle;
  const [x0, x1, y0, y1] = frame.handles.bed;
  const [ox, oy] = frame.handles.offset;
  return [tidy((x0 + x1 - ox) / 2), tidy((y0 + y1 - oy) / 2)];
}

let anchor: Pair | undefined;  // of the probe while it is dragged

function offsetGrip(state: State, frame: Frame): Grip {
  const nozzle = state.dragging && anchor ? anchor : nozzleShown(state, frame);
  if (!state.dragging) anchor = nozzle;
  const offset = frame.handles.offset;
  return {
    id: 'offset', kind: 'place', did: 'offset', at: offset, nozzle, shownAt: plus(nozzle, offset),
    says: `Probe: offset ${words(offset)} from nozzle to probe`,
    changes: (to) => ({'/probe/offset': to}),
    head: (to) => plus(nozzle, to),
  };
}

// The bounds of the grid as they stand in the setup: for the probe or for the nozzle.
export function gridChanges(setup: Setup, offset: Pair, box: Box): Changes {
  const grid = setup.request?.grid;
  const [ox, oy] = grid?.frame === 'nozzle' ? offset : [0, 0];
  const changes: Changes = {
    '/request/grid/x': [tidy(box[0] - ox), tidy(box[1] - ox)],
    '/request/grid/y': [tidy(box[2] - oy), tidy(box[3] - oy)],
  };
  if (grid?.margins !== undefined) changes['/request/grid/margins'] = null;
  if (grid?.margins_from !== undefined) changes['/request/grid/margins_from'] = null;
  return changes;
}

export const kSides = ['left', 'right', 'front', 'back'] as const;

function sideGrips(setup: Setup, frame: Frame): Grip[] {
  const box = frame.handles.grid;
  if (!box) return [];
  const [x0, x1, y0, y1] = box;
  const lines: [Pair, Pair][] = [[[x0, y0], [x0, y1]], [[x1, y0], [x1, y1]], [[x0, y0], [x1, y0]], [[x0, y1], [x1, y1]]];
  return kSides.map((side, i) => {
    const value = box[i]!;
    const along = i < 2 ? 0 : 1;
    const line = lines[i]!;
    // Between two points of the grid, so that it hides none.
    const count = (i < 2 ? setup.request?.grid?.rows : setup.request?.grid?.columns) ?? 2;
    const part = count > 1 ? (Math.floor((count - 1) / 2) + 0.5) / (count - 1) : 0.5;
    const shownAt: Pair = i < 2 ? [value, y0 + (y1 - y0) * Math.min(part, 0.75)] : [x0 + (x1 - x0) * Math.min(part, 0.75), value];
    return {
      id: side, kind: i < 2 ? 'side-x' : 'side-y', did: `${side} side of the grid`, at: [value, value], shownAt, line,
      says: `Grid, ${side} side at ${along === 0 ? 'x' : 'y'} ${shownNumber(value)} of the probe`,
      changes: (to) => {
        const next: Box = [...box];
        next[i] = to[along]!;
        return gridChanges(setup, frame.handles.offset, next);
      },
    };
  });
}

function homeGrip(setup: Setup, frame: Frame): Grip | undefined {
  const home = frame.handles.home;
  if (!home) return undefined;
  const forProbe = setup.request?.home?.frame === 'probe';
  return {
    id: 'home', kind: 'place', did: 'homing point', at: home.nozzle, shownAt: home.nozzle,
    says: `Homing point: nozzle at ${words(home.nozzle)}`,
    changes: (to) => ({'/request/home/at': forProbe ? plus(to, frame.handles.offset) : to}),
  };
}

function moved(obstacle: Obstacle, i: number, by: Pair): Changes | undefined {
  const at = `/machine/obstacles/${i}/shape`;
  const {rectangle, disc} = obstacle.shape;
  if (rectangle) {
    return {[at + '/rectangle/x']: rectangle.x.map((x) => tidy(x + by[0])),
            [at + '/rectangle/y']: rectangle.y.map((y) => tidy(y + by[1]))};
  }
  return disc ? {[at + '/disc/center']: plus(disc.center, by)} : undefined;
}

function obstacleGrips(setup: Setup, frame: Frame): Grip[] {
  return (setup.machine.obstacles ?? []).flatMap((obstacle, i) => {
    const box = frame.handles.obstacles[i]?.box;
    if (!box || !moved(obstacle, i, [0, 0])) return [];
    const at: Pair = [box[0], box[2]];
    return [{
      id: `obstacle-${i}`, kind: 'box' as const, did: obstacle.name, at, shownAt: at, box,
      says: `${obstacle.name}, its left front corner at ${words(at)}`,
      changes: (to: Pair) => moved(obstacle, i, minus(to, at)) ?? {},
    }];
  });
}

function headGrip(state: State): Grip | undefined {
  const at = state.head;
  if (!at) return undefined;
  return {id: 'head', kind: 'place', did: 'head', at, shownAt: at, says: `Head: probe at ${words(at)}`, changes: () => ({})};
}

// Those that come later lie on top.
export function grips(state: State, frame: Frame): Grip[] {
  const setup = state.setup;
  if (!setup) return [];
  const all = [...obstacleGrips(setup, frame), ...sideGrips(setup, frame), homeGrip(setup, frame),
               state.head ? headGrip(state) : offsetGrip(state, frame)];
  return all.filter((grip): grip is Grip => grip !== undefined);
}

// A grip was moved so far; several moves make one step.
export function dragged(work: Work, grip: Grip, to: Pair): void {
  if (grip.id === 'head') {
    work.putHead(to);
    return;
  }
  if (grip.head) work.state = {...work.state, pointed: grip.head(to)};
  work.drag(grip.changes(to));
}
