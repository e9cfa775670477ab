// Clips, screws and whatever else stands on the bed.

import type {Changes, Obstacle, Pair} from '../answers';
import {tidy} from '../typed';
import type {State, Work} from '../work';
import {Dial} from './dials';

export function Obstacles({work, state}: {work: Work; state: State}) {
  const obstacles = state.setup!.machine.obstacles ?? [];
  const [x0, x1, y0] = state.frame!.handles.bed;
  const add = () => {
    const middle = (x0 + x1) / 2;
    const clip: Obstacle = {name: nameFor(obstacles), height: 5, clearance: 1,
                            shape: {rectangle: {x: [tidy(middle - 10), tidy(middle + 10)], y: [tidy(y0), tidy(y0 + 10)]}}};
    const at = obstacles.length > 0 ? '/machine/obstacles/-' : '/machine/obstacles';
    void work.change({[at]: obstacles.length > 0 ? clip : [clip]}, 'a clip more');
  };
  return (
    <>
      <p>What stands on the bed or beside it: the probe must not be over it, nor the head come down on it. Drag it on the plan, or type.</p>
      <ul class="cards">{obstacles.map((obstacle, i) => <One key={i} work={work} obstacle={obstacle} i={i} />)}</ul>
      <button type="button" onClick={add}>Add a clip</button>
    </>
  );
}

function nameFor(obstacles: Obstacle[]): string {
  for (let i = obstacles.length + 1;; ++i) {
    if (!obstacles.some((one) => one.name === `clip ${i}`)) return `clip ${i}`;
  }
}

function One({work, obstacle, i}: {work: Work; obstacle: Obstacle; i: number}) {
  const at = `/machine/obstacles/${i}`;
  const put = (changes: Changes) => work.change(changes, obstacle.name);
  const {rectangle, disc} = obstacle.shape;
  const side = (axis: 'x' | 'y', end: 0 | 1, value: number) => {
    const both: Pair = [...rectangle![axis]];
    both[end] = value;
    return put({[`${at}/shape/rectangle/${axis}`]: both});
  };
  return (
    <li class="card">
      <label class="labelled">Name <input value={obstacle.name}
        onChange={(event) => void put({[at + '/name']: event.currentTarget.value})} /></label>
      <div class="row-of-dials">
        {rectangle ? (['left', 'right'] as const).map((label, end) => (
          <Dial label={label} says={`${obstacle.name}, ${label} side`} value={rectangle.x[end]}
                put={(value) => side('x', end as 0 | 1, value)} />)) : null}
        {rectangle ? (['front', 'back'] as const).map((label, end) => (
          <Dial label={label} says={`${obstacle.name}, ${label} side`} value={rectangle.y[end]}
                put={(value) => side('y', end as 0 | 1, value)} />)) : null}
        {disc ? ['x', 'y'].map((axis, k) => (
          <Dial label={axis} says={`${obstacle.name}, middle in ${axis}`} value={disc.center[k]}
                put={(value) => put({[at + '/shape/disc/center']: k === 0 ? [value, disc.center[1]] : [disc.center[0], value]})} />)) : null}
        {disc ? <Dial label="radius" says={`${obstacle.name}, radius`} value={disc.radius}
                      put={(value) => put({[at + '/shape/disc/radius']: value})} /> : null}
        <Dial label="height" says={`${obstacle.name}, height; any height where empty`} value={obstacle.height}
              put={(value) => put({[at + '/height']: value})} />
        <Dial label="keep off" says={`${obstacle.name}, wanted clearance`} value={obstacle.clearance ?? 0}
              put={(value) => put({[at + '/clearance']: value})} />
      </div>
      <button type="button" onClick={() => void put({[at]: null})}>Take {obstacle.name} away</button>
    </li>
  );
}
