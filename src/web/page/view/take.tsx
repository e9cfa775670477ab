// What one leaves with: the numbers to enter, files, a text for a reply.

import {useEffect, useState} from 'preact/hooks';
import type {Answer, Fault, Filled, FillName, Fitted, NumberToEnter, OwnNumbers, Told} from '../answers';
import type {State, Work} from '../work';
import {Copy, CopyNumber} from './copy';

interface Taken {
  of: number;
  own: Answer<OwnNumbers>;
  fitted: Answer<Fitted>;
  reply: Answer<Told>;
}

export function Take({work, state}: {work: Work; state: State}) {
  const [taken, set] = useState<Taken>();
  const revision = work.revision;
  useEffect(() => {
    if (state.dragging) return;
    let current = true;
    const requests = [{do: 'numbers'}, {do: 'fit', format: 'text'}, {do: 'explain', format: 'markdown', ...work.evidence()}];
    void work.ask<unknown>(requests).then(([own, fitted, reply]) => {
      if (!current || !own || !fitted || !reply) return;
      set({of: revision, own: own as Answer<OwnNumbers>, fitted: fitted as Answer<Fitted>, reply: reply as Answer<Told>});
    });
    return () => { current = false; };
  }, [work, revision, state.dragging]);
  const fresh = taken?.of === revision ? taken : undefined;
  return (
    <>
      <p class="caution">{state.frame!.caution}</p>
      <h2>Numbers to enter</h2>
      {fresh ? <NumbersToEnter work={work} own={fresh.own} answer={fresh.fitted} /> : <p role="status">The numbers are being checked …</p>}
      <h2>Files</h2>
      <Files work={work} state={state} />
      <h2>In your controller's words</h2>
      <Fill work={work} state={state} />
      <h2>For a reply</h2>
      {fresh ? <Reply answer={fresh.reply} /> : null}
    </>
  );
}

function said(faults: Fault[]): string { return faults.map((fault) => fault.message).join(' '); }

const kSides = ['left', 'right', 'front', 'back'] as const;

interface NumbersProps {
  work: Work;
  own: Answer<OwnNumbers>;
  answer: Answer<Fitted>;
}

// Those of one's own grid where it passes, else those of the grid that fits.
function NumbersToEnter({work, own, answer}: NumbersProps) {
  if (!own.ok || !own.safe) {
    return (
      <>
        {own.ok ? <p class="fault">The grid as it stands is not to be entered. {own.says}</p> : null}
        <OfFit work={work} answer={answer} />
      </>
    );
  }
  return (
    <>
      <p>Of the grid as it stands. Each number is copied by a click on it.</p>
      <Numbers numbers={own.numbers} />
      <details><summary>The grid that fit finds, instead</summary><OfFit work={work} answer={answer} /></details>
    </>
  );
}

function OfFit({work, answer}: {work: Work; answer: Answer<Fitted>}) {
  if (!answer.ok) return <p class="fault">{said(answer.faults)}</p>;
  const cards = (answer.apply ?? []).filter((card) => card.kind === 'grid');
  return (
    <div class="group">
      {cards.map((card) => (
        <div class="card">
          <p>{card.says}</p>
          <button type="button" onClick={() => void work.change(card.changes, card.title)}>Show this grid on the plan</button>
        </div>
      ))}
      {answer.fits ? <p class="hint">Its numbers. Each is copied by a click on it.</p> : <pre tabIndex={0}>{answer.text}</pre>}
      <Numbers numbers={answer.numbers} />
    </div>
  );
}

function Numbers({numbers}: {numbers: NumberToEnter[]}) {
  return <ul class="numbers">{numbers.map((one) => <Entry one={one} />)}</ul>;
}

// "x = 5.5" is what left stands at: its axis is told, the number is entered.
function parted(side: string, text: string): [label: string, value: string] {
  const axis = /^[xy] = /.exec(text)?.[0] ?? '';
  return [axis ? `${side}, ${axis[0]}` : side, text.slice(axis.length)];
}

function Entry({one}: {one: NumberToEnter}) {
  return (
    <li>
      <h3>{one.what}</h3>
      <div class="cells">
        {kSides.map((side) => {
          const text = one[side];
          if (text === undefined) return null;
          const [label, value] = parted(side, text);
          return <CopyNumber key={side} label={label} of={one.what} text={value} />;
        })}
        {one.value === undefined ? null : <CopyNumber label="" of={one.what} text={one.value} />}
      </div>
    </li>
  );
}

function Reply({answer}: {answer: Answer<Told>}) {
  if (!answer.ok) return <p class="fault">{said(answer.faults)}</p>;
  return (
    <>
      <Copy label="Copy the reply" what="the reply" text={answer.text} />
      <pre tabIndex={0} class="reply">{answer.text}</pre>
    </>
  );
}

const kFiles = [
  {says: 'Setup', end: '.json', type: 'application/json', request: {do: 'save'}},
  {says: 'Report', end: '.html', type: 'text/html', request: {do: 'report'}},
  {says: 'Points as CSV', end: '.csv', type: 'text/csv', request: {do: 'check', format: 'csv'}},
  {says: 'Plan as SVG', end: '.svg', type: 'image/svg+xml', request: {do: 'draw'}},
  {says: 'True size (1:1), A4', end: '-true-size.html', type: 'text/html', request: {do: 'true-size', paper: 'A4'}},
  {says: 'True size (1:1), letter', end: '-true-size.html', type: 'text/html', request: {do: 'true-size', paper: 'letter'}},
];

function fileName(name: string): string {
  return name.toLowerCase().replace(/[^a-z0-9]+/g, '-').replace(/^-+|-+$/g, '').slice(0, 60) || 'setup';
}

export function download(text: string | Blob, name: string, type: string): void {
  const link = document.createElement('a');
  link.href = URL.createObjectURL(typeof text === 'string' ? new Blob([text], {type}) : text);
  link.download = name;
  document.body.append(link);
  link.click();
  link.remove();
  setTimeout(() => URL.revokeObjectURL(link.href), 10_000);
}

// Twice as large as it is drawn, for screens that show fine detail.
async function pictureOf(svg: string): Promise<Blob | null> {
  const url = URL.createObjectURL(new Blob([svg], {type: 'image/svg+xml'}));
  try {
    const image = new Image();
    image.src = url;
    await image.decode();
    const canvas = document.createElement('canvas');
    canvas.width = 2 * image.naturalWidth;
    canvas.height = 2 * image.naturalHeight;
    canvas.getContext('2d')?.drawImage(image, 0, 0, canvas.width, canvas.height);
    return await new Promise((resolve) => canvas.toBlob(resolve, 'image/png'));
  } catch {
    return null;
  } finally {
    URL.revokeObjectURL(url);
  }
}

function Files({work, state}: {work: Work; state: State}) {
  const [wrong, say] = useState('');
  const name = fileName(state.setup!.name);
  const give = async (file: (typeof kFiles)[number]) => {
    const answer = await work.engine.call<Told>(file.request);
    if (answer.ok) download(answer.text, name + file.end, file.type);
    say(answer.ok ? '' : said(answer.faults));
  };
  const picture = async () => {
    const answer = await work.engine.call<Told>({do: 'draw'});
    if (!answer.ok) return say(said(answer.faults));
    const png = await pictureOf(answer.text);
    if (png) download(png, name + '.png', 'image/png');
    say(png ? '' : 'This browser makes no picture of it; take the SVG.');
  };
  return (
    <>
      <div class="files">{kFiles.map((file) => (
        <button type="button" onClick={() => void give(file)}>{file.says}</button>
      ))}
        <button type="button" onClick={() => void picture()}>Plan as PNG</button></div>
      <p class="fault" role="status">{wrong}</p>
    </>
  );
}

let templateBefore = '';

// One's own text with names in double braces, filled while it is typed.
function Fill({work, state}: {work: Work; state: State}) {
  const [text, setText] = useState(templateBefore);
  const [names, setNames] = useState<FillName[]>([]);
  const [filled, set] = useState<Answer<Filled>>();
  const [fit, setFit] = useState(false);
  const [anyway, setAnyway] = useState(false);
  const revision = work.revision;
  useEffect(() => {
    void work.engine.call<{names: FillName[]}>({do: 'fill-names'}).then((answer) => {
      if (answer.ok) setNames(answer.names);
    });
  }, [work]);
  useEffect(() => {
    if (text.trim() === '' || state.dragging) {
      set(undefined);
      return;
    }
    let current = true;
    const timer = setTimeout(() => {
      void work.engine.call<Filled>({do: 'fill', template: text, name: 'the template', fit, anyway}).then((answer) => {
        if (current) set(answer);
      });
    }, 250);
    return () => {
      current = false;
      clearTimeout(timer);
    };
  }, [work, text, fit, anyway, revision, state.dragging]);
  return (
    <>
      <label class="template">A text of your own, with names in double braces where the checked numbers belong
        <textarea rows={3} spellcheck={false} value={text} placeholder="{{setup}}: ..."
                  onInput={(event) => { templateBefore = event.currentTarget.value; setText(templateBefore); }} />
      </label>
      <Tick label="Look for a grid that fits, for the names that begin with fit" on={fit} set={setFit} />
      {filled?.ok && filled.safe === false ? (
        <div class="unsafe">
          <p class="fault">{filled.says}</p>
          <Tick label="Fill it all the same, to read it: these numbers fail" on={anyway} set={setAnyway} />
        </div>
      ) : null}
      {filled?.ok && filled.text !== '' ? <><Copy label="Copy the filled text" what="the filled text" text={filled.text} /><pre tabIndex={0}>{filled.text}</pre></> : null}
      {filled && !filled.ok ? <ul>{filled.faults.map((fault) => (
        <li class="fault">{fault.line ? `Line ${fault.line}: ` : ''}{fault.message}</li>))}</ul> : null}
      {names.length > 0 ? (
        <details><summary>The names</summary><ul class="names">{names.map((one) => (
          <li><code>{one.name}</code>{one.within ? <small> within {one.within}</small> : null} {one.meaning}</li>))}</ul></details>
      ) : null}
    </>
  );
}

function Tick({label, on, set}: {label: string; on: boolean; set(on: boolean): void}) {
  return <p class="tick"><label><input type="checkbox" checked={on} onChange={(event) => set(event.currentTarget.checked)} /> {label}</label></p>;
}
