// Two setups, or two offsets of one probe: what differs, beside the plans of both.

import {useEffect, useState} from 'preact/hooks';
import type {Answer, Differs, Fault, Frame, Length, Told} from '../answers';
import type {State, Work} from '../work';
import {readFiles} from './app';

export function Compare({work, state}: {work: Work; state: State}) {
  return state.other ? <Compared work={work} state={state} /> : <Choose work={work} state={state} />;
}

function Choose({work, state}: {work: Work; state: State}) {
  const [faults, tell] = useState<Fault[]>([]);
  const [x, setX] = useState('');
  const [y, setY] = useState('');
  const setup = state.setup!;
  const take = async (what: object) => tell(await work.compareWith(what));
  const withOffset = async (event: Event) => {
    event.preventDefault();
    const read = await Promise.all([x, y].map((text) => work.engine.call<Length>({do: 'length', text})));
    const wrong = read.flatMap((one) => (one.ok ? [] : one.faults));
    if (wrong.length > 0) return tell(wrong);
    const offset = read.map((one) => (one.ok ? one.value : 0));
    const name = `${setup.name}, offset ${offset.join(', ')}`;
    await take({text: JSON.stringify({...setup, name, probe: {...setup.probe, offset}}), name});
  };
  const open = async (files: FileList) => {
    const read = await readFiles(files);
    if ('faults' in read) tell(read.faults);
    else await take(read);
  };
  return (
    <>
      <p>Two setups or two brackets, drawn to one scale, with what differs.</p>
      <section class="card">
        <h2>Before and after</h2>
        <p>Keep the setup as it is now, then drag or type: both are seen.</p>
        <button type="button" onClick={() => void take({text: JSON.stringify(setup), name: setup.name})}>Keep this one to compare with</button>
      </section>
      <section class="card">
        <h2>Another bracket</h2>
        <form class="row-of-dials" onSubmit={(event) => void withOffset(event)}>
          <label class="dial">x <input value={x} aria-label="Other offset x" onInput={(event) => setX(event.currentTarget.value)} /></label>
          <label class="dial">y <input value={y} aria-label="Other offset y" onInput={(event) => setY(event.currentTarget.value)} /></label>
          <button type="submit" disabled={x.trim() === '' || y.trim() === ''}>Compare this offset</button>
        </form>
      </section>
      <section class="card">
        <h2>Another setup</h2>
        <label class="file">A file, with its profiles beside it
          <input type="file" multiple accept=".json,application/json"
                 onChange={(event) => { const {files} = event.currentTarget; if (files?.length) void open(files); }} />
        </label>
        <p class="hint">A link that is opened now can be compared too.</p>
      </section>
      <div role="alert">{faults.map((fault) => <p class="fault">{fault.message}</p>)}</div>
    </>
  );
}

// Once nothing moves.
function useDiffers(work: Work, state: State): Differs | undefined {
  const [found, set] = useState<Differs>();
  const other = state.other!.setup;
  const {revision} = work;
  useEffect(() => {
    if (state.dragging) return;
    let current = true;
    void work.engine.call<Differs>({do: 'differs', other: JSON.stringify(other)}).then((answer) => {
      if (current && answer.ok) set(answer);
    });
    return () => { current = false; };
  }, [work, other, revision, state.dragging]);
  return found;
}

function Compared({work, state}: {work: Work; state: State}) {
  const other = state.other!;
  const mine = state.frame!;
  const found = useDiffers(work, state);
  const rows = [
    ...(found?.differs ?? []).map((one) => [one.what, one.this, one.other]),
    ...outcomes(mine, other.frame),
  ];
  return (
    <>
      <fieldset class="how">
        <legend class="unseen">How the plans are shown</legend>
        {[true, false].map((beside) => (
          <label><input type="radio" name="how" checked={state.beside === beside} onChange={() => work.showBeside(beside)} />
            {beside ? ' side by side' : ' laid over one another'}</label>))}
      </fieldset>
      <table class="differs">
        <caption class="unseen">What differs</caption>
        <thead><tr><td></td><th scope="col">This</th><th scope="col">The other</th></tr></thead>
        <tbody>
          {rows.map(([what, one, two]) => <tr key={what}><th scope="row">{what}</th><td>{one}</td><td>{two}</td></tr>)}
        </tbody>
      </table>
      {found ? <p>{found.says}</p> : null}
      <div class="files">
        <button type="button" onClick={() => void work.changePlaces()}>Change places</button>
        <button type="button" onClick={() => work.stopComparing()}>Stop comparing</button>
      </div>
      <Both work={work} state={state} />
    </>
  );
}

const share = ({fraction}: Frame) => (fraction?.fraction == null ? 'none' : `${(100 * fraction.fraction).toFixed(1)} %`);

// What came of it, and of the engine's sentences those that aren't the same.
function outcomes(mine: Frame, other: Frame): string[][] {
  const both = [mine, other];
  return [['reachable', ...both.map(({counts}) => `${counts.reachable} of ${counts.points}`)], ['covered', ...both.map(share)],
          ['tightest', mine.tightest, other.tightest]].filter(([, one, two]) => one !== two);
}

// Where one offset would do for both.
function Both({work, state}: {work: Work; state: State}) {
  const [answer, set] = useState<Answer<Told>>();
  const [open, setOpen] = useState(false);
  const other = JSON.stringify(state.other!.setup);
  const revision = work.revision;
  useEffect(() => {
    if (!open || state.dragging) return;
    let current = true;
    void work.ask<Told>([{do: 'bracket', format: 'text', setups: [other]}]).then(([told]) => { if (current && told) set(told); });
    return () => { current = false; };
  }, [work, open, other, revision, state.dragging]);
  return (
    <details onToggle={(event) => setOpen(event.currentTarget.open)}>
      <summary>One offset that would do for both</summary>
      {answer?.ok ? <pre tabIndex={0}>{answer.text}</pre> : null}
      {answer && !answer.ok ? answer.faults.map((fault) => <p class="fault">{fault.message}</p>) : null}
    </details>
  );
}
