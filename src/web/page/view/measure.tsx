// The offset from readings: the nozzle, then the probe, over the same dots.

import {useState} from 'preact/hooks';
import type {Answer, Measured} from '../answers';
import type {State, Work} from '../work';

// They stay while another tab is looked at.
let typedBefore = 'nozzle_x, nozzle_y, probe_x, probe_y\n';
let droppedBefore: number[] = [];

export function Measure({work, state}: {work: Work; state: State}) {
  const [text, setText] = useState(typedBefore);
  const [dropped, setDropped] = useState(droppedBefore);
  const [resolution, setResolution] = useState('');
  const [answer, set] = useState<Answer<Measured>>();
  const look = async (drop: number[]) => {
    droppedBefore = drop;
    setDropped(drop);
    set(await work.engine.call<Measured>({do: 'measure', readings: text, resolution, drop}));
  };
  const toggle = (i: number) => void look(dropped.includes(i) ? dropped.filter((one) => one !== i) : [...dropped, i]);
  return (
    <>
      <p>Mark a few dots on the bed. Put the nozzle over each and read the display, then the probe. Move slowly, the
        nozzle cold and lifted.</p>
      <label class="pasted-readings">Readings, a line each, below the names of the columns
        <textarea rows={6} spellcheck={false} value={text}
                  onInput={(event) => { typedBefore = event.currentTarget.value; setText(typedBefore); }} />
      </label>
      <label class="labelled">Smallest step of the display, mm
        <input value={resolution} placeholder="0.1" onInput={(event) => setResolution(event.currentTarget.value)} /></label>
      <button type="button" disabled={text.trim() === ''} onClick={() => void look([])}>Find the offset</button>
      <div role="status">
        {answer && !answer.ok ? <ul>{answer.faults.map((fault) => (
          <li class="fault">{fault.line ? `Line ${fault.line}: ` : ''}{fault.message}</li>))}</ul> : null}
        {answer?.ok ? <Found work={work} state={state} found={answer} dropped={dropped} toggle={toggle} /> : null}
      </div>
    </>
  );
}

interface FoundProps {
  work: Work;
  state: State;
  found: Measured;
  dropped: number[];
  toggle(i: number): void;
}

function Found({work, found, dropped, toggle}: FoundProps) {
  const outlying = new Set(found.outliers.map((one) => one.reading));
  return (
    <>
      {found.readings.length > 1 ? <Scatter found={found} outlying={outlying} /> : null}
      <ul class="readings">{found.readings.map((reading, i) => (
        <li><label><input type="checkbox" checked={!dropped.includes(i)} onChange={() => toggle(i)} />{' '}
          {reading.label || `reading ${i + 1}`}: {reading.offset.join(', ')}{outlying.has(i) ? <b> stands out</b> : null}</label></li>
      ))}</ul>
      <pre tabIndex={0}>{found.text}</pre>
      {found.changes ? (
        <button type="button" class="main" onClick={() => void work.change(found.changes!, 'measured offset')}>Use this offset</button>
      ) : null}
    </>
  );
}

// Each reading's offset, as far from the others as it is.
function Scatter({found, outlying}: {found: Measured; outlying: Set<number>}) {
  const xs = found.readings.map((reading) => reading.offset[0]);
  const ys = found.readings.map((reading) => reading.offset[1]);
  const middle = [(Math.min(...xs) + Math.max(...xs)) / 2, (Math.min(...ys) + Math.max(...ys)) / 2] as const;
  const wide = Math.max(Math.max(...xs) - Math.min(...xs), Math.max(...ys) - Math.min(...ys), 0.01);
  const scale = 130 / wide;
  return (
    <svg class="meaning scatter" viewBox="0 0 170 170" role="img"
         aria-label={`The offsets of ${found.readings.length} readings; they differ by up to ${Math.round(100 * wide) / 100} mm`}>
      <rect class="bed" x="1" y="1" width="168" height="168" />
      {found.readings.map((reading, i) => {
        const [x, y] = [85 + (reading.offset[0] - middle[0]) * scale, 85 - (reading.offset[1] - middle[1]) * scale];
        return reading.dropped || outlying.has(i)
          ? <path class="accent" d={`M${x - 4} ${y - 4}l8 8m0-8l-8 8`} /> : <circle class="ink" cx={x} cy={y} r="3.5" />;
      })}
    </svg>
  );
}
