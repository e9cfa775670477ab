// What each number means on the machine, seen from above; the operator stands in front.

import type {ComponentChildren} from 'preact';

function Picture({children}: {children: ComponentChildren}) {
  return <svg class="meaning" viewBox="0 0 150 104" aria-hidden="true">{children}</svg>;
}

function Nozzle({x, y}: {x: number; y: number}) {
  return <><circle class="paper line" cx={x} cy={y} r="5" /><circle class="ink" cx={x} cy={y} r="2" /></>;
}

// A dimension line with ticks at its ends.
function Size({from, to}: {from: [number, number]; to: [number, number]}) {
  const flat = from[1] === to[1];
  const tick = (at: [number, number]) => flat ? `M${at[0]} ${at[1] - 4}v8` : `M${at[0] - 4} ${at[1]}h8`;
  return <path class="accent" d={`M${from.join(' ')}L${to.join(' ')}${tick(from)}${tick(to)}`} />;
}

// The field that is being filled; what belongs to others stands back meanwhile.
export interface Lit { lit: string | undefined }
function back(lit: string | undefined, name: string): string | undefined {
  return lit !== undefined && lit !== name ? 'faded' : undefined;
}

// Where 0, 0 lies.
function Zero({x, y}: {x: number; y: number}) {
  return <path class="line" d={`M${x - 5} ${y}h10M${x} ${y - 5}v10`} />;
}

export function BedPicture({lit, round, middle}: Lit & {round: boolean; middle: boolean}) {
  const zero = middle ? <Zero x={84} y={40} /> : <Zero x={36} y={74} />;
  if (round) {
    return (
      <Picture>
        <circle class="bed" cx="84" cy="40" r="35" />
        {zero}
        <Size from={[84, 84]} to={[119, 84]} /><text x="84" y="101" class="middle">radius</text>
      </Picture>
    );
  }
  return (
    <Picture>
      <rect class="bed" x="36" y="6" width="96" height="68" />
      {zero}
      <g class={back(lit, 'width')}><Size from={[36, 84]} to={[132, 84]} /><text x="84" y="101" class="middle">width</text></g>
      <g class={back(lit, 'depth')}><Size from={[26, 6]} to={[26, 74]} />
        <text class="middle" transform="translate(16 40) rotate(-90)">depth</text></g>
    </Picture>
  );
}

export function TravelPicture({lit, round}: Lit & {round: boolean}) {
  if (round) {
    return (
      <Picture>
        <circle class="bed" cx="78" cy="50" r="32" />
        <circle class="dashed" cx="78" cy="50" r="42" />
        <Nozzle x={120} y={50} /><Nozzle x={36} y={50} />
        <Size from={[78, 50]} to={[115, 50]} />
        <text x="70" y="68" class="middle">bed</text>
      </Picture>
    );
  }
  return (
    <Picture>
      <rect class="bed" x="40" y="22" width="74" height="56" />
      <rect class="dashed" x="28" y="12" width="100" height="76" />
      <g class={back(lit, 'right')}><Nozzle x={128} y={50} /></g>
      <g class={back(lit, 'left')}><Nozzle x={28} y={50} /></g>
      <g class={back(lit, 'back')}><Nozzle x={78} y={12} /></g>
      <g class={back(lit, 'front')}><Nozzle x={78} y={88} /></g>
      <text x="77" y="54" class="middle">bed</text>
    </Picture>
  );
}

// Turns with what was typed.
export function OffsetPicture({x, y, lit}: Lit & {x: number | undefined; y: number | undefined}) {
  const [ox, oy] = x === undefined && y === undefined ? [-38.5, 12] : [x ?? 0, y ?? 0];
  const long = Math.hypot(ox, oy) || 1;
  const [dx, dy] = [46 * ox / long, -30 * oy / long];
  const [nx, ny] = [75 - dx / 2, 42 - dy / 2];
  const [px, py] = [nx + dx, ny + dy];
  const words = [ox < 0 ? 'left' : ox > 0 ? 'right' : '', oy < 0 ? 'in front' : oy > 0 ? 'behind' : ''].filter(Boolean);
  return (
    <Picture>
      <path class={`accent ${back(lit, 'x') ?? ''}`} d={`M${nx} ${ny}H${px}`} />
      <path class={`accent ${back(lit, 'y') ?? ''}`} d={`M${px} ${ny}V${py}`} />
      <circle class="accent paper" cx={px} cy={py} r="8" />
      <Nozzle x={nx} y={ny} />
      <text x="75" y="101" class="middle">{words.length ? 'probe ' + words.join(', ') : 'under the nozzle'}</text>
    </Picture>
  );
}

export function GridPicture({lit}: Lit) {
  const rows = [18, 34, 50, 66];
  const columns = [34, 54, 74, 94, 114];
  return (
    <Picture>
      <rect class="bed" x="20" y="6" width="110" height="72" />
      {lit === 'columns' ? columns.map((x) => <path class="accent" d={`M${x} 10V74`} />) : null}
      {lit === 'rows' ? rows.map((y) => <path class="accent" d={`M24 ${y}H126`} />) : null}
      {rows.flatMap((y) => columns.map((x) => <circle class="ink" cx={x} cy={y} r="2.4" />))}
      <text x="75" y="97" class="middle">columns × rows</text>
    </Picture>
  );
}

export function MarginPicture() {
  return (
    <Picture>
      <rect class="bed" x="20" y="8" width="110" height="82" />
      <rect class="dashed" x="46" y="30" width="58" height="38" />
      <Size from={[20, 49]} to={[46, 49]} /><Size from={[104, 49]} to={[130, 49]} />
      <Size from={[75, 8]} to={[75, 30]} /><Size from={[75, 68]} to={[75, 90]} />
      <text x="75" y="53" class="middle">grid</text>
    </Picture>
  );
}
