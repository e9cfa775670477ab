// How a setup comes in: five numbers, an example, a file, a link.

import {useEffect, useId, useState} from 'preact/hooks';
import type {ComponentChildren} from 'preact';
import type {Answer, Example, Fault} from '../answers';
import {hasSetup} from '../link';
import {lengthIn, plain} from '../typed';
import type {State, Work} from '../work';
import {openFiles} from './app';
import {BedPicture, GridPicture, MarginPicture, OffsetPicture, TravelPicture} from './pictures';

type Values = Record<string, string>;

// The form stays as it was while one looks at what came of it.
let typedBefore: Values = {};

export function Start({work, state}: {work: Work; state: State}) {
  return (
    <main class="start">
      <div class="lead">
        <h1>Which points can the probe reach?</h1>
        <p>The probe hangs beside the nozzle. To put it over a point, the nozzle has to go somewhere else: perhaps past
          the end of its travel, or onto a clip. Give five numbers and see. Nothing leaves this machine.</p>
      </div>
      <Five work={work} />
      <Others work={work} state={state} />
    </main>
  );
}

function Five({work}: {work: Work}) {
  const [values, setValues] = useState<Values>(typedBefore);
  const [faults, setFaults] = useState<Fault[]>([]);
  const [busy, setBusy] = useState(false);
  const put = (name: string, value: string) => {
    typedBefore = {...values, [name]: value};
    setValues(typedBefore);
  };
  const send = async (event: Event) => {
    event.preventDefault();
    setBusy(true);
    const found = await work.form(fieldsOf(values));
    setFaults(found);
    setBusy(false);
    if (found.length > 0) {
      document.querySelector<HTMLElement>(`[data-field="${found[0]!.field}"] input`)?.focus();
    }
  };
  const row = {values, put, faults};
  return (
    <form class="five" onSubmit={(event) => void send(event)} noValidate aria-label="Five numbers">
      <Row {...row} field="bed" title="The bed" picture={<BedPicture />}
           hint="What prints stand on. Its front left corner is taken to be at 0, 0."
           inputs={[['width', 'width', '233'], ['depth', 'depth', '207']]} />
      <Row {...row} field="travel" title="The travel" picture={<TravelPicture />}
           hint="How far the nozzle really goes, read off the display at each end: moving slowly, the nozzle cold."
           inputs={[['left', 'left end', '-5'], ['right', 'right end', '239'], ['front', 'front end', '-2'], ['back', 'back end', '211']]} />
      <Row {...row} field="offset" title="The offset" hint="From the nozzle to the probe. Left and front are negative."
           picture={<OffsetPicture x={lengthIn(values.x ?? '')} y={lengthIn(values.y ?? '')} />}
           inputs={[['x', 'x', '-38.5'], ['y', 'y', '12']]} />
      <Row {...row} field="grid" title="The grid" picture={<GridPicture />} hint="How many points to probe."
           inputs={[['columns', 'columns', '5'], ['rows', 'rows', '5']]} />
      <Row {...row} field="margins" title="The margins" picture={<MarginPicture />}
           hint="How far the grid stays from each edge of the bed." inputs={[['margins', 'all round', '20']]} />
      <p class="go"><button type="submit" class="main" disabled={busy}>Show what it can reach</button>
        <small>In mm, x to the right and y away from you. Inches with “in” behind them are understood.</small></p>
    </form>
  );
}

// As the engine's readers take them.
function fieldsOf(values: Values): Record<string, string> {
  const of = (name: string) => plain(values[name] ?? '');
  const joined = (names: string[], between: string) => names.every((name) => of(name) === '') ? '' : names.map(of).join(between);
  const travel = ['left', 'right', 'front', 'back'].every((name) => of(name) === '')
    ? '' : `${of('left')}..${of('right')},${of('front')}..${of('back')}`;
  return {bed: joined(['width', 'depth'], 'x'), travel, offset: joined(['x', 'y'], ','),
          grid: joined(['columns', 'rows'], 'x'), margins: of('margins')};
}

interface RowProps {
  field: string;
  title: string;
  hint: string;
  picture: ComponentChildren;
  inputs: [name: string, label: string, such: string][];
  values: Values;
  put(name: string, value: string): void;
  faults: Fault[];
}

function Row({field, title, hint, picture, inputs, values, put, faults}: RowProps) {
  const id = useId();
  const mine = faults.filter((fault) => fault.field === field);
  return (
    <fieldset class={mine.length > 0 ? 'row wrong' : 'row'} data-field={field} aria-describedby={id + '-hint'}>
      <legend><span>{title}</span></legend>
      <div class="small-picture">{picture}</div>
      <div class="entry">
        <p id={id + '-hint'} class="hint">{hint}</p>
        <div class="inputs">{inputs.map(([name, label, such]) => (
          <label>{label}
            <input value={values[name] ?? ''} placeholder={such} autoComplete="off" spellcheck={false}
                   aria-label={`${title}: ${label}`} aria-invalid={mine.length > 0}
                   aria-describedby={mine.length > 0 ? id + '-fault' : undefined}
                   onInput={(event) => put(name, event.currentTarget.value)} />
            {shownInMm(values[name])}
          </label>
        ))}</div>
        <div id={id + '-fault'} class="fault" role="alert">{mine.map((fault) => <p>{fault.message}</p>)}</div>
      </div>
    </fieldset>
  );
}

// What was typed with another unit, in mm.
function shownInMm(text: string | undefined): ComponentChildren {
  if (!text || !/in|"|″/i.test(text)) return null;
  const value = lengthIn(text);
  return value === undefined ? null : <small>{value} mm</small>;
}

function Others({work, state}: {work: Work; state: State}) {
  const [examples, setExamples] = useState<Example[]>([]);
  useEffect(() => {
    void work.engine.call<{examples: Example[]}>({do: 'examples'}).then((answer: Answer<{examples: Example[]}>) => {
      if (answer.ok) setExamples(answer.examples);
    });
  }, [work]);
  const open = async (name: string) => work.set({faults: await work.read({example: name}, 'example')});
  return (
    <div class="others">
      <section aria-labelledby="own-file">
        <h2 id="own-file">Or a setup that you have</h2>
        <label class="file">Open a file, with its profiles beside it; or drop it on this page
          <input type="file" multiple accept=".json,application/json"
                 onChange={(event) => { const {files} = event.currentTarget; if (files?.length) void openFiles(work, files); }} />
        </label>
        <Pasted work={work} />
        {state.notice ? <p class="fault">{state.notice}</p> : null}
      </section>
      <section aria-labelledby="examples">
        <h2 id="examples">Or an example</h2>
        <ul class="examples">{examples.map((example) => (
          <li><button type="button" onClick={() => void open(example.name)}><b>{example.title}</b> <span>{example.says}</span></button></li>
        ))}</ul>
      </section>
    </div>
  );
}

function Pasted({work}: {work: Work}) {
  const [text, setText] = useState('');
  const open = async () => {
    if (text.trim() === '') return;
    if (hasSetup(text)) await work.openLink(text);
    else work.set({faults: await work.read({text, name: 'what was pasted'}, 'pasted')});
  };
  return (
    <div class="pasted">
      <label>Or paste a link or the text of a setup
        <textarea rows={2} spellcheck={false} value={text} onInput={(event) => setText(event.currentTarget.value)} />
      </label>
      <button type="button" disabled={text.trim() === ''} onClick={() => void open()}>Open it</button>
    </div>
  );
}
