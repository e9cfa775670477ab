// The machine and its probe in numbers: bed, travel, what stands on the one and hangs on the head.

import type {ComponentChildren} from 'preact';
import type {Changes, Fault, Obstacle, Part, Shape} from '../answers';
import {tidy} from '../typed';
import type {State, Work} from '../work';
import {Dial} from './dials';

type Put = (changes: Changes) => Promise<Fault[]>;

export function Machine({work, state}: {work: Work; state: State}) {
  const {machine} = state.setup!;
  return (
    <>
      <section class="group">
        <h2>Bed and travel</h2>
        <p class="hint">What prints stand on:</p>
        <div class="row-of-dials">
          <ShapeDials of="Bed" shape={machine.bed} at="/machine/bed" put={(changes) => work.change(changes, 'bed')} />
        </div>
        <p class="hint">Where the nozzle may be sent:</p>
        <div class="row-of-dials">
          <ShapeDials of="Travel" shape={machine.travel} at="/machine/travel" put={(changes) => work.change(changes, 'travel')} />
        </div>
      </section>
      <ProbeNumbers work={work} state={state} />
      <Obstacles work={work} state={state} />
      <Parts work={work} state={state} />
    </>
  );
}

// The numbers of a rectangle or a disc; what has more corners comes from a file.
function ShapeDials({of, shape, at, put}: {of: string; shape: Shape; at: string; put: Put}) {
  const {rectangle, disc} = shape;
  if (rectangle) {
    const end = (axis: 'x' | 'y', i: 0 | 1, label: string) => (
      <Dial label={label} says={`${of}, ${label} side`} value={rectangle[axis][i]}
            put={(value) => put({[`${at}/rectangle/${axis}`]: i === 0 ? [value, rectangle[axis][1]] : [rectangle[axis][0], value]})} />
    );
    return <>{end('x', 0, 'left')}{end('x', 1, 'right')}{end('y', 0, 'front')}{end('y', 1, 'back')}</>;
  }
  if (disc) {
    return (
      <>
        {['x', 'y'].map((axis, i) => (
          <Dial label={axis} says={`${of}, middle in ${axis}`} value={disc.center[i]}
                put={(value) => put({[at + '/disc/center']: i === 0 ? [value, disc.center[1]] : [disc.center[0], value]})} />))}
        <Dial label="radius" says={`${of}, radius`} value={disc.radius} put={(value) => put({[at + '/disc/radius']: value})} />
      </>
    );
  }
  return <p class="hint">{of}: an outline of its own, as the file gives it.</p>;
}

const kProbe = [
  {key: 'edge_distance', label: "keeps off the bed's edge", did: 'edge distance'},
  {key: 'trigger_height', label: 'triggers at a height of', did: 'trigger height'},
  {key: 'travel_height', label: 'height between points', did: 'travel height'},
] as const;

function ProbeNumbers({work, state}: {work: Work; state: State}) {
  const {probe} = state.setup!;
  const spot = probe.spot?.disc;
  return (
    <section class="group">
      <h2>The probe</h2>
      <div class="row-of-dials wider">
        {probe.spot && !spot ? null : (
          <Dial label="senses, radius" says="Probe, radius of the spot that it senses" value={spot?.radius ?? 0}
                put={(radius) => work.change({'/probe/spot': radius === 0 ? null : {disc: {center: spot?.center ?? [0, 0], radius}}}, 'spot')} />
        )}
        {kProbe.map(({key, label, did}) => (
          <Dial key={key} label={label} says={`Probe, ${did}`} value={probe[key]}
                put={(value) => work.change({['/probe/' + key]: value}, did)} />
        ))}
      </div>
    </section>
  );
}

function nameFor(taken: {name: string}[], kind: string): string {
  for (let i = taken.length + 1;; ++i) {
    if (!taken.some((one) => one.name === `${kind} ${i}`)) return `${kind} ${i}`;
  }
}

function added(at: string, taken: unknown[], one: unknown): Changes {
  return taken.length > 0 ? {[at + '/-']: one} : {[at]: [one]};
}

function Obstacles({work, state}: {work: Work; state: State}) {
  const obstacles = state.setup!.machine.obstacles ?? [];
  const [x0, x1, y0] = state.frame!.handles.bed;
  const add = () => {
    const middle = (x0 + x1) / 2;
    const clip: Obstacle = {name: nameFor(obstacles, 'clip'), height: 5, clearance: 1,
                            shape: {rectangle: {x: [tidy(middle - 10), tidy(middle + 10)], y: [tidy(y0), tidy(y0 + 10)]}}};
    void work.change(added('/machine/obstacles', obstacles, clip), 'a clip more');
  };
  return (
    <section class="group">
      <h2>What stands on the bed</h2>
      <p>The probe must not be over it, nor the head come down on it. Drag it on the plan, or type.</p>
      <ul class="cards">{obstacles.map((obstacle, i) => {
        const at = `/machine/obstacles/${i}`;
        const put: Put = (changes) => work.change(changes, obstacle.name);
        return (
          <Item key={i} one={obstacle} at={at} put={put}>
            <ShapeDials of={obstacle.name} shape={obstacle.shape} at={at + '/shape'} put={put} />
            <Dial label="height" says={`${obstacle.name}, height; any height where empty`} value={obstacle.height}
                  put={(value) => put({[at + '/height']: value})} />
            <Dial label="keep off" says={`${obstacle.name}, wanted clearance`} value={obstacle.clearance ?? 0}
                  put={(value) => put({[at + '/clearance']: value})} />
          </Item>
        );
      })}</ul>
      <button type="button" onClick={add}>Add a clip</button>
    </section>
  );
}

function Parts({work, state}: {work: Work; state: State}) {
  const parts = state.setup!.machine.head ?? [];
  const add = () => {
    const part: Part = {name: nameFor(parts, 'part'), outline: {rectangle: {x: [-20, 20], y: [-30, -10]}}, underside: 3};
    void work.change(added('/machine/head', parts, part), 'a part more');
  };
  return (
    <section class="group">
      <h2>What hangs beside the nozzle</h2>
      <p>Numbers from the nozzle; the underside is above the nozzle's tip.</p>
      <ul class="cards">{parts.map((part, i) => {
        const at = `/machine/head/${i}`;
        const put: Put = (changes) => work.change(changes, part.name);
        return (
          <Item key={i} one={part} at={at} put={put}>
            <ShapeDials of={part.name} shape={part.outline} at={at + '/outline'} put={put} />
            <Dial label="underside" says={`${part.name}, underside`} value={part.underside}
                  put={(value) => put({[at + '/underside']: value})} />
          </Item>
        );
      })}</ul>
      <button type="button" onClick={add}>Add a part of the head</button>
    </section>
  );
}

interface ItemProps {
  one: {name: string};
  at: string;
  put: Put;
  children: ComponentChildren;
}

function Item({one, at, put, children}: ItemProps) {
  return (
    <li class="card">
      <label class="labelled">Name <input value={one.name} autoComplete="off" spellcheck={false}
        onChange={(event) => void put({[at + '/name']: event.currentTarget.value})} /></label>
      <div class="row-of-dials">{children}</div>
      <button type="button" onClick={() => void put({[at]: null})}>Take {one.name} away</button>
    </li>
  );
}
