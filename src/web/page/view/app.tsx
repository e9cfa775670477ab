// The page as a whole: what stands where.

import {useEffect, useMemo, useRef, useState} from 'preact/hooks';
import type {Fault} from '../answers';
import type {State, Work} from '../work';
import {Compare} from './compare';
import {WorkContext} from './context';
import {Copy} from './copy';
import {Dials} from './dials';
import {Machine} from './machine';
import {Measure} from './measure';
import {Mend} from './mend';
import {Plan} from './plan';
import {Reasons} from './reasons';
import {Start} from './start';
import {Tabs} from './tabs';
import {Take} from './take';
import {kLongLink} from '../link';

function useWork(work: Work): State {
  const [state, set] = useState(work.state);
  useEffect(() => work.listen(() => set(work.state)), [work]);
  return state;
}

function inText(target: EventTarget | null): boolean {
  return target instanceof HTMLElement && target.matches('input:not([type=checkbox]), textarea');
}

function useUndoKeys(work: Work): void {
  useEffect(() => {
    const pressed = (event: KeyboardEvent) => {
      if (!(event.ctrlKey || event.metaKey) || event.altKey || inText(event.target)) return;
      const key = event.key.toLowerCase();
      if (key === 'z' && !event.shiftKey) void work.undo();
      else if (key === 'y' || (key === 'z' && event.shiftKey)) void work.redo();
      else return;
      event.preventDefault();
    };
    window.addEventListener('keydown', pressed);
    return () => window.removeEventListener('keydown', pressed);
  }, [work]);
}

// A file dropped anywhere on the page.
function useDrops(work: Work): boolean {
  const [over, setOver] = useState(false);
  useEffect(() => {
    const drag = (event: DragEvent) => {
      if (!event.dataTransfer?.types.includes('Files')) return;
      event.preventDefault();
      setOver(event.type === 'dragover');
    };
    const drop = (event: DragEvent) => {
      if (!event.dataTransfer?.files.length) return;
      event.preventDefault();
      setOver(false);
      void openFiles(work, event.dataTransfer.files);
    };
    window.addEventListener('dragover', drag);
    window.addEventListener('dragleave', drag);
    window.addEventListener('drop', drop);
    return () => {
      window.removeEventListener('dragover', drag);
      window.removeEventListener('dragleave', drag);
      window.removeEventListener('drop', drop);
    };
  }, [work]);
  return over;
}

const kMostBytes = 8_000_000;

type Opened = {text: string; name: string; files: Record<string, string>} | {faults: Fault[]};

// A setup, with the profiles that it names beside it.
export async function readFiles(list: FileList): Promise<Opened> {
  const texts = new Map<string, string>();
  for (const file of list) {
    if (file.size > kMostBytes) return {faults: [{message: `${file.name} has more than 8 MB: no setup is that long.`}]};
    texts.set(file.name, await file.text());
  }
  const isSetup = (text: string) => /"format"\s*:\s*"leeway-setup/.test(text);
  const [main] = [...texts].find(([, text]) => isSetup(text)) ?? [...texts][0] ?? [];
  if (main === undefined) return {faults: []};
  const files = Object.fromEntries([...texts].filter(([name]) => name !== main));
  return {text: texts.get(main) ?? '', name: main, files};
}

export async function openFiles(work: Work, list: FileList): Promise<void> {
  const read = await readFiles(list);
  const faults = 'faults' in read ? read.faults : await work.read(read, 'file');
  work.set({notice: '', faults});
}

export function App({work}: {work: Work}) {
  const state = useWork(work);
  useUndoKeys(work);
  const over = useDrops(work);
  return (
    <WorkContext.Provider value={work}>
    <div class={over ? 'page over' : 'page'}>
      {state.phase === 'starting' || state.phase === 'broken' ? null : <Bar work={work} state={state} />}
      <Offered work={work} state={state} />
      <Faults state={state} />
      {state.phase === 'broken' ? <Broken says={state.broken} /> : null}
      {state.phase === 'starting' ? <main class="missing"><p>The engine is being unpacked.</p></main> : null}
      {state.phase === 'start' ? <Start work={work} state={state} /> : null}
      {state.phase === 'work' && state.frame ? <Desk work={work} state={state} /> : null}
      <p class="unseen" role="status">{state.notice || null}</p>
    </div>
    </WorkContext.Provider>
  );
}

function Broken({says}: {says: string}) {
  return (
    <main class="missing">
      <h1>The engine does not start here</h1>
      <p>{says}</p>
      <p>Another browser may do, or the command: <code>leeway check SETUP</code>.</p>
    </main>
  );
}

function Bar({work, state}: {work: Work; state: State}) {
  const last = state.past.at(-1)?.did;
  const next = state.future.at(-1)?.did;
  return (
    <header class="bar">
      <p class="mark"><b>leeway</b> <span>where the probe can go</span></p>
      {state.phase === 'work' ? (
        <div class="tools">
          <button type="button" disabled={!last} onClick={() => void work.undo()}
                  aria-label={last ? `Undo: ${last}` : 'Undo'}>Undo</button>
          <button type="button" disabled={!next} onClick={() => void work.redo()}
                  aria-label={next ? `Redo: ${next}` : 'Redo'}>Redo</button>
          <LinkButton work={work} />
          <label class="keep"><input type="checkbox" checked={state.keeps}
                 onChange={(event) => work.keepHere(event.currentTarget.checked)} /> Remember here</label>
          <button type="button" onClick={() => work.startAnew()}>Another setup</button>
        </div>
      ) : null}
      {state.phase === 'start' && state.setup ? (
        <div class="tools"><button type="button" onClick={() => work.backToWork()}>Back to {state.setup.name}</button></div>
      ) : null}
    </header>
  );
}

function LinkButton({work}: {work: Work}) {
  const [long, setLong] = useState(0);
  const make = async () => {
    const link = await work.link();
    setLong(link.length);
    return link;
  };
  return (
    <span class="link">
      <Copy label="Copy link" what="the link" text={make} />
      {long > kLongLink ? <small role="status">The link has {long} letters; some programs cut it. Send the file.</small> : null}
    </span>
  );
}

function Offered({work, state}: {work: Work; state: State}) {
  if (!state.offered) return null;
  return (
    <section class="ask" aria-label="A link was opened">
      <p>The link holds another setup: <b>{state.offered.name}</b>. It would take the place of yours; Undo brings yours back.</p>
      <button type="button" onClick={() => void work.takeOffered()}>Show it</button>
      <button type="button" onClick={() => work.set({offered: undefined})}>Keep mine</button>
      <button type="button" onClick={() => void work.compareOffered()}>Compare with mine</button>
    </section>
  );
}

function Faults({state}: {state: State}) {
  const faults = state.faults.filter((fault) => !fault.field);
  return (
    <div class="faults" role="alert">
      {faults.length > 0 ? <ul>{faults.slice(0, 12).map((fault) => (
        <li>{fault.file ? `${fault.file}${fault.line ? `, line ${fault.line}, column ${fault.column}` : ''}: ` : ''}
          {fault.pointer ? <code>{fault.pointer}</code> : null} {fault.message}</li>
      ))}</ul> : null}
      {faults.length > 12 ? <p>And {faults.length - 12} more.</p> : null}
    </div>
  );
}

function Desk({work, state}: {work: Work; state: State}) {
  const frame = state.frame!;
  const verdict = useRef<HTMLHeadingElement>(null);
  useEffect(() => verdict.current?.focus(), []);  // what came of the form is read at once
  const open = (tab: string) => {
    work.showTab(tab);
    document.getElementById('tab-' + tab)?.focus();
  };
  return (
    <main class={state.other && state.beside ? 'desk pair' : 'desk'}>
      <div class={`verdict ${frame.verdict ?? 'none'}`}>
        <svg viewBox="0 0 24 24" aria-hidden="true"><path d={signs[frame.verdict ?? 'none']} /></svg>
        <h1 ref={verdict} tabIndex={-1}>{[frame.before, frame.headline].filter(Boolean).join(' ')}</h1>
        <p class="next">
          {frame.verdict === 'reachable' ? null : <button type="button" onClick={() => open('mend')}>What would help</button>}
          <button type="button" onClick={() => open('take')}>Numbers to enter</button>
        </p>
      </div>
      <Dials work={work} state={state} />
      <Plan work={work} state={state} />
      <Beside work={work} state={state} />
      <p class="caution">{frame.caution}</p>
    </main>
  );
}

// What stands beside the plan. A drag it follows where that rests.
function Beside({work, state}: {work: Work; state: State}) {
  const calm = useRef(state);
  if (!state.dragging || state.frame?.points !== calm.current.frame?.points) calm.current = state;
  const shown = calm.current;
  return useMemo(() => (
    <Tabs shown={shown.tab} show={(tab) => work.showTab(tab)} tabs={[
      {id: 'reasons', title: 'Reasons', body: () => <Reasons work={work} state={shown} />},
      {id: 'mend', title: 'Mend', body: () => <Mend work={work} state={shown} />},
      {id: 'take', title: 'Take away', body: () => <Take work={work} state={shown} />},
      {id: 'machine', title: 'Machine', body: () => <Machine work={work} state={shown} />},
      {id: 'compare', title: 'Compare', body: () => <Compare work={work} state={shown} />},
      {id: 'measure', title: 'Measure', body: () => <Measure work={work} state={shown} />},
    ]} />
  ), [work, shown]);
}

export const signs = {
  reachable: 'M12 3a9 9 0 1 0 .01 0zM7.5 12.5l3 3 6-7',
  marginal: 'M12 2l10 10-10 10L2 12zM12 7v6M12 15.5v1',
  unreachable: 'M5 5l14 14M19 5L5 19',
  none: 'M5 12h14',
} as const;
