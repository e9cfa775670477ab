// The numbers that can be dragged, to be typed.

import {useEffect, useId, useRef, useState} from 'preact/hooks';
import type {Box, Changes, Fault, Length, Pair} from '../answers';
import {gridChanges, kSides} from '../grips';
import {shownNumber, tidy} from '../typed';
import type {State, Work} from '../work';
import {useTheWork} from './context';

interface DialProps {
  label: string;
  says: string;    // the whole name, for those who hear the page
  value: number | undefined;
  length?: boolean;
  put(value: number): Promise<Fault[]>;
}

// Else what is wrong with it.
async function readNumber(work: Work, text: string, length: boolean): Promise<number | string> {
  if (!length) return /^\s*\d{1,4}\s*$/.test(text) ? Number(text) : 'A whole number.';
  const answer = await work.engine.call<Length>({do: 'length', text});
  return answer.ok ? answer.value : answer.faults.map((fault) => fault.message).join(' ');
}

export function Dial({label, says, value, length = true, put}: DialProps) {
  const work = useTheWork();
  const id = useId();
  const [text, setText] = useState<string>();
  const [fault, setFault] = useState('');
  const entered = useRef<string | undefined>(undefined);  // on its way: Enter and leaving are one
  const stepped = useRef<number | undefined>(undefined);  // by arrows, on its way
  const shown = text ?? (value === undefined ? '' : shownNumber(value));
  useEffect(() => setFault(''), [value]);
  const enter = async () => {
    if (text === undefined || entered.current === text) return;
    entered.current = text;
    try {
      await take(text);
    } finally {
      entered.current = undefined;
    }
  };
  const take = async (text: string) => {
    const read = await readNumber(work, text, length);
    if (typeof read === 'string') {
      setFault(read);
      return;
    }
    const typed = read;
    if (typed === value) {
      setText(undefined);
      setFault('');
      return;
    }
    const faults = await put(typed);
    setFault(faults.map((one) => one.message).join(' '));
    if (faults.length === 0) setText(undefined);
  };
  const pressed = (event: KeyboardEvent) => {
    if (event.key === 'Enter') void enter();
    if (event.key === 'Escape') {
      setText(undefined);
      setFault('');
    }
    const way = {ArrowUp: 1, ArrowDown: -1}[event.key];
    if (way === undefined || value === undefined || text !== undefined) return;
    event.preventDefault();
    const to = tidy((stepped.current ?? value) + way * (length ? (event.shiftKey ? 1 : 0.1) : 1));
    stepped.current = to;
    void put(to).then(() => { if (stepped.current === to) stepped.current = undefined; });
  };
  return (
    <div class={fault ? 'dial wrong' : 'dial'}>
      <label for={id}>{label}</label>
      <input id={id} inputMode={length ? 'text' : 'numeric'} autoComplete="off" spellcheck={false}
             aria-label={says} aria-invalid={fault !== ''} aria-describedby={fault ? id + '-fault' : undefined}
             value={shown} onInput={(event) => setText(event.currentTarget.value)}
             onBlur={() => void enter()} onKeyDown={pressed} />
      {fault ? <p id={id + '-fault'} class="fault">{fault}</p> : null}
    </div>
  );
}

export function Dials({work, state}: {work: Work; state: State}) {
  const setup = state.setup!;
  const handles = state.frame!.handles;
  const change = (changes: Changes, did: string) => work.change(changes, did);
  const pair = (at: Pair, i: number, value: number): Pair => (i === 0 ? [value, at[1]] : [at[0], value]);
  const unsure: Pair = setup.probe.offset_uncertainty ?? [0, 0];
  const grid = setup.request?.grid;
  const home = setup.request?.home;
  const side = (i: number, value: number) => {
    const box: Box = [...handles.grid!];
    box[i] = value;
    return change(gridChanges(setup, handles.offset, box), `${kSides[i]} side of the grid`);
  };
  return (
    <section class="dials" aria-label="Numbers">
      <fieldset>
        <legend>Offset, from nozzle to probe</legend>
        {['x', 'y'].map((axis, i) => (
          <Dial label={axis} says={`Offset ${axis}`} value={handles.offset[i]}
                put={(value) => change({'/probe/offset': pair(handles.offset, i, value)}, 'offset')} />
        ))}
        {['x', 'y'].map((axis, i) => (
          <Dial label={`± ${axis}`} says={`Standard uncertainty of the offset in ${axis}`} value={unsure[i]}
                put={(value) => change({'/probe/offset_uncertainty': pair(unsure, i, value)}, 'uncertainty')} />
        ))}
      </fieldset>
      {grid && handles.grid ? (
        <fieldset>
          <legend>Grid, positions of the probe</legend>
          <Dial label="columns" says="Columns of the grid" value={grid.columns} length={false}
                put={(value) => change({'/request/grid/columns': value}, 'columns')} />
          <Dial label="rows" says="Rows of the grid" value={grid.rows} length={false}
                put={(value) => change({'/request/grid/rows': value}, 'rows')} />
          {kSides.map((name, i) => (
            <Dial label={name} says={`Grid, ${name} side`} value={handles.grid![i]} put={(value) => side(i, value)} />
          ))}
        </fieldset>
      ) : null}
      <fieldset>
        <legend>Homing{home ? `, position of the ${home.frame ?? 'nozzle'}` : ''}</legend>
        {home ? ['x', 'y'].map((axis, i) => (
          <Dial label={axis} says={`Homing point ${axis}`} value={home.at[i]}
                put={(value) => change({'/request/home/at': pair(home.at, i, value)}, 'homing point')} />
        )) : null}
        {home ? (
          <button type="button" onClick={() => void change({'/request/home': null}, 'homing point')}>Leave out</button>
        ) : (
          <button type="button" onClick={() => void change({'/request/home': {
            at: [(handles.bed[0] + handles.bed[1]) / 2, (handles.bed[2] + handles.bed[3]) / 2], frame: 'nozzle'}}, 'homing point')}>
            Add a homing point</button>
        )}
      </fieldset>
    </section>
  );
}
