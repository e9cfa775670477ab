// The plan, and what can be taken hold of on it.

import {useEffect, useLayoutEffect, useMemo, useRef} from 'preact/hooks';
import type {Frame, OffsetWindow, Pair, PlanPoint} from '../answers';
import {dragged, grips, type Grip} from '../grips';
import {Piece, putPicture} from '../patch';
import {snapped, tidy} from '../typed';
import type {State, Work} from '../work';

const kNear = 11;    // px: a point is pointed at
const kStep = 0.5;   // mm: of a drag
const kFine = 0.05;  // with Shift or Alt
const kLeastWidth = 280;
const kBetween = 20;  // px between two plans, at most
const kBelow = 64;   // px under the drawing: numbers and the bar of scale

// mm to the picture and back.
function toPicture(frame: Frame, at: Pair): Pair {
  const {corner, scale} = frame.view;
  return [corner[0] + scale * at[0], corner[1] - scale * at[1]];
}
function toMm(frame: Frame, at: Pair): Pair {
  const {corner, scale} = frame.view;
  return [(at[0] - corner[0]) / scale, (corner[1] - at[1]) / scale];
}

export function Plan({work, state}: {work: Work; state: State}) {
  const frame = state.frame!;
  const box = useRef<HTMLDivElement>(null);
  const picture = useRef<HTMLDivElement>(null);
  useWidth(work, box, frame, state.other !== undefined && state.beside);
  usePicture(picture, frame);
  return (
    <section class="plan" aria-label="Plan">
      <div class={state.other && state.beside ? 'frames beside' : 'frames'}>
      <div class="frame" ref={box}>
        <div class="picture" ref={picture} />
        {state.other && !state.beside ? <OtherPicture frame={state.other.frame} over /> : null}
        <WindowOfOffsets state={state} frame={frame} />
        <Overlay work={work} state={state} frame={frame} />
      </div>
      {state.other && state.beside ? <div class="frame"><OtherPicture frame={state.other.frame} /></div> : null}
      </div>
      {state.other ? <p class="which">{state.beside ? "The other's plan: " : 'Violet and dashed: '}{state.other.frame.headline}</p> : null}
      <div class="under">
        {state.refused.length > 0
          ? <p class="said fault" role="status">{state.refused.map((fault) => fault.message).join(' ')}</p>
          : <p class="said" role="status">{saidOf(state, frame)}</p>}
        <button type="button" aria-pressed={state.head !== undefined}
                onClick={() => work.putHead(state.head ? undefined : middleOf(frame))}>
          {state.head ? 'Take the head off' : 'Put the head on it'}</button>
        <button type="button" aria-pressed={state.showsWindow} onClick={() => work.showWindow(!state.showsWindow)}>
          Where the probe may sit</button>
        <button type="button" aria-pressed={state.legend} onClick={() => work.showLegend(!state.legend)}>Legend</button>
      </div>
    </section>
  );
}

// The engine's picture; Preact needn't look into it.
function usePicture(box: {current: HTMLDivElement | null}, frame: Frame): void {
  const before = useRef<Piece | undefined>(undefined);
  useLayoutEffect(() => {
    if (!box.current) return;
    const plan = new Piece(frame.plan);
    putPicture(box.current, before.current, plan);
    before.current = plan;
    const [svg, width] = [box.current.firstElementChild, String(frame.view.width)];
    if (svg?.getAttribute('width') !== width) svg?.setAttribute('width', width);
  }, [frame.plan]);
}

// Of the setup that is compared with; there is nothing to take hold of.
function OtherPicture({frame, over}: {frame: Frame; over?: boolean}) {
  const box = useRef<HTMLDivElement>(null);
  usePicture(box, frame);
  return <div class={over ? 'picture ghost' : 'picture'} ref={box} />;
}

// As wide as there is room, and no higher than the window.
function useWidth(work: Work, box: {current: HTMLDivElement | null}, frame: Frame, beside: boolean): void {
  const ratio = useRef(1);
  ratio.current = (frame.view.drawing[3] + kBelow) / frame.view.width;
  useEffect(() => {
    const fit = () => {
      const all = box.current?.parentElement?.clientWidth ?? 700;
      const room = beside && all >= 2 * kLeastWidth + kBetween ? (all - kBetween) / 2 : all;
      const wide = matchMedia('(min-width: 60rem)').matches;
      const most = wide ? Math.max(420, (innerHeight - 270) / Math.min(ratio.current, 1.4)) : room;
      work.resize(Math.max(kLeastWidth, Math.floor(Math.min(room, most))));
    };
    const observer = new ResizeObserver(fit);
    if (box.current?.parentElement) observer.observe(box.current.parentElement);
    window.addEventListener('resize', fit);
    fit();
    return () => {
      observer.disconnect();
      window.removeEventListener('resize', fit);
    };
  }, [work, beside]);
}

function middleOf(frame: Frame): Pair {
  const [x0, x1, y0, y1] = frame.handles.bed;
  return [tidy((x0 + x1) / 2), tidy((y0 + y1) / 2)];
}

function pointAt(frame: Frame, at: Pair | undefined): PlanPoint | undefined {
  return at && frame.points?.find((point) => point.probe[0] === at[0] && point.probe[1] === at[1]);
}

function saidOf(state: State, frame: Frame): string {
  const head = frame.head;
  if (!head && state.showsWindow && state.window) return state.window.answer.says ?? '';
  if (!head) return 'Point at a mark for its reason. Drag the probe, a side of the grid or the homing point.';
  const point = pointAt(frame, state.pointed ?? state.head);
  const where = point ? point.name : `Probe at ${head.probe[0]}, ${head.probe[1]}`;
  return `${where}, ${head.verdict}: ${head.reason}. Nozzle at ${head.nozzle[0]}, ${head.nozzle[1]}.`;
}

function Overlay({work, state, frame}: {work: Work; state: State; frame: Frame}) {
  const drag = useRef<{grip: Grip; from: Pair; bounds: DOMRect} | undefined>(undefined);
  const {width, height} = frame.view;

  // Where the picture stands is looked up once a drag: asking lays the whole page out.
  const place = (event: PointerEvent): Pair => {
    const bounds = drag.current?.bounds ?? (event.currentTarget as Element).getBoundingClientRect();
    return [(event.clientX - bounds.left) * width / bounds.width, (event.clientY - bounds.top) * height / bounds.height];
  };
  const near = (at: Pair): PlanPoint | undefined => {
    let best: PlanPoint | undefined;
    let least = kNear;
    for (const point of frame.points ?? []) {
      const [x, y] = toPicture(frame, point.probe);
      const far = Math.hypot(x - at[0], y - at[1]);
      if (far < least) {
        least = far;
        best = point;
      }
    }
    return best;
  };

  const down = (event: PointerEvent) => {
    if (event.button !== 0) return;
    const at = place(event);
    const name = (event.target as Element).closest<SVGElement>('[data-grip]')?.dataset.grip;
    const grip = grips(state, frame).find((one) => one.id === name);
    if (grip) {
      drag.current = {grip, from: toMm(frame, at), bounds: (event.currentTarget as Element).getBoundingClientRect()};
      (event.currentTarget as Element).setPointerCapture(event.pointerId);
      if (grip.id === 'head') work.holdView(true);
      else work.startDrag(grip.did);
      event.preventDefault();
      (event.target as Element).closest<SVGElement>('[data-grip]')?.focus();
      return;
    }
    const point = near(at);
    if (point) work.putHead(pointAt(frame, state.head) === point ? undefined : point.probe);
  };
  const move = (event: PointerEvent) => {
    const at = place(event);
    const held = drag.current;
    if (!held) {
      if (event.pointerType !== 'touch') work.point(near(at)?.probe);
      return;
    }
    const mm = toMm(frame, at);
    const step = event.shiftKey || event.altKey ? kFine : kStep;
    const by: Pair = [mm[0] - held.from[0], mm[1] - held.from[1]];
    const to = held.grip.at.map((value, i) => snapped(value + by[i]!, step)) as Pair;
    dragged(work, held.grip, to);
  };
  const up = () => {
    const held = drag.current;
    drag.current = undefined;
    if (held?.grip.id === 'head') work.holdView(false);
    else if (held) void work.endDrag();
  };
  const cancel = () => {
    const held = drag.current;
    drag.current = undefined;
    if (held?.grip.id === 'head') work.holdView(false);
    else if (held) void work.dropDrag();
  };

  return (
    <svg class="grips" viewBox={`0 0 ${width} ${height}`} role="group" aria-label="Things to move"
         onPointerDown={down} onPointerMove={move} onPointerUp={up} onPointerCancel={cancel}
         onPointerLeave={() => { if (!drag.current) work.point(undefined); }}
         onKeyDown={(event) => { if (event.key === 'Escape' && drag.current) cancel(); }}>
      {grips(state, frame).map((grip) => <GripMark key={grip.id} work={work} grip={grip} frame={frame} />)}
    </svg>
  );
}

// The window of offsets around the nozzle, on the map of what each would cover.
function WindowOfOffsets({state, frame}: {state: State; frame: Frame}) {
  const shown = state.window;
  const held = state.dragging && state.pointed !== undefined;
  const nozzle = grips(state, frame).find((grip) => grip.id === 'offset')?.nozzle;
  if (!shown || !nozzle || !(held || state.showsWindow)) return null;
  const [x, y] = toPicture(frame, nozzle);
  const scale = frame.view.scale;
  const {map, window} = shown.answer;
  return (
    <svg class="window" viewBox={`0 0 ${frame.view.width} ${frame.view.height}`} aria-hidden="true">
      <g transform={`translate(${x} ${y})`}>
        {map ? <MapOfOffsets map={map} scale={scale} /> : null}
        {window && !window.empty ? <path transform={`scale(${scale / shown.scale})`} d={window.path} /> : null}
      </g>
    </svg>
  );
}

// As a picture, one pixel an offset.
function MapOfOffsets({map, scale}: {map: NonNullable<OffsetWindow['map']>; scale: number}) {
  const [x0, x1, columns] = map.x;
  const [y0, y1, rows] = map.y;
  const url = useMemo(() => {
    const canvas = document.createElement('canvas');
    canvas.width = columns;
    canvas.height = rows;
    const brush = canvas.getContext('2d');
    map.shares.forEach((share, i) => {
      if (!brush) return;
      brush.fillStyle = map.colours[Math.round(share / 10)] ?? '#000';
      brush.fillRect(i % columns, rows - 1 - Math.floor(i / columns), 1, 1);
    });
    return canvas.toDataURL();
  }, [map]);
  const half = [(x1 - x0) / (columns - 1) / 2, (y1 - y0) / (rows - 1) / 2] as const;
  return <image href={url} x={(x0 - half[0]) * scale} y={-(y1 + half[1]) * scale} preserveAspectRatio="none"
                width={(x1 - x0 + 2 * half[0]) * scale} height={(y1 - y0 + 2 * half[1]) * scale} />;
}

const kArrows: Record<string, Pair> = {ArrowLeft: [-1, 0], ArrowRight: [1, 0], ArrowUp: [0, 1], ArrowDown: [0, -1]};

function GripMark({work, grip, frame}: {work: Work; grip: Grip; frame: Frame}) {
  const pressed = (event: KeyboardEvent) => {
    const way = kArrows[event.key];
    if (!way || event.ctrlKey || event.metaKey) return;
    event.preventDefault();
    const step = event.shiftKey ? 1 : 0.1;
    void work.nudge(grip.id, [way[0] * step, way[1] * step]);
  };
  const [x, y] = toPicture(frame, grip.shownAt);
  const size = frame.view.width < 420 ? 0.7 : 1;
  return (
    <g class={`grip ${grip.kind}`} data-grip={grip.id} tabindex={0} role="button" aria-label={grip.says}
       aria-roledescription="thing to move with the arrow keys" onKeyDown={pressed}>
      {grip.line ? <Side frame={frame} line={grip.line} /> : null}
      {grip.box ? <BoxArea frame={frame} box={grip.box} /> : null}
      {grip.kind === 'side-x' ? <Bar x={x} y={y} half={[4 * size, 13 * size]} /> : null}
      {grip.kind === 'side-y' ? <Bar x={x} y={y} half={[13 * size, 4 * size]} /> : null}
      {grip.kind === 'place' ? <><circle class="reach" cx={x} cy={y} r="14" /><circle class="knob" cx={x} cy={y} r={10 * size} /></> : null}
    </g>
  );
}

function Bar({x, y, half}: {x: number; y: number; half: Pair}) {
  const [across, down] = half;
  return <rect class="knob" x={x - across} y={y - down} width={2 * across} height={2 * down} rx={Math.min(across, down)} />;
}

function Side({frame, line}: {frame: Frame; line: [Pair, Pair]}) {
  const [[x1, y1], [x2, y2]] = [toPicture(frame, line[0]), toPicture(frame, line[1])];
  return <line class="reach" x1={x1} y1={y1} x2={x2} y2={y2} />;
}

function BoxArea({frame, box}: {frame: Frame; box: [number, number, number, number]}) {
  const [x0, y1] = toPicture(frame, [box[0], box[2]]);
  const [x1, y0] = toPicture(frame, [box[1], box[3]]);
  return <rect class="area" x={x0} y={y0} width={Math.max(x1 - x0, 8)} height={Math.max(y1 - y0, 8)} />;
}
