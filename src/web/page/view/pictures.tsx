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

export function BedPicture() {
  return (
    <Picture>
      <rect class="bed" x="36" y="8" width="96" height="68" />
      <Size from={[36, 86]} to={[132, 86]} /><Size from={[26, 8]} to={[26, 76]} />
      <text x="84" y="101" class="middle">width</text>
      <text class="middle" transform="translate(17 42) rotate(-90)">depth</text>
    </Picture>
  );
}

export function TravelPicture() {
  return (
    <Picture>
      <rect class="bed" x="40" y="22" width="74" height="56" />
      <rect class="dashed" x="28" y="12" width="100" height="76" />
      <Nozzle x={128} y={50} /><Nozzle x={28} y={50} /><Nozzle x={78} y={12} /><Nozzle x={78} y={88} />
      <text x="77" y="54" class="middle">bed</text>
    </Picture>
  );
}

// Turns with what was typed.
export function OffsetPicture({x, y}: {x: number | undefined; y: number | undefined}) {
  const [ox, oy] = x === undefined && y === undefined ? [-38.5, 12] : [x ?? 0, y ?? 0];
  const long = Math.hypot(ox, oy) || 1;
  const reach = Math.min(36, Math.max(20, long));
  const [px, py] = [75 + 1.25 * reach * ox / long, 52 - reach * oy / long];
  const words = [ox < 0 ? 'left' : ox > 0 ? 'right' : '', oy < 0 ? 'in front' : oy > 0 ? 'behind' : ''].filter(Boolean);
  return (
    <Picture>
      <path class="accent" d={`M75 52L${px} ${py}`} />
      <circle class="accent paper" cx={px} cy={py} r="8" />
      <Nozzle x={75} y={52} />
      <text x="75" y="101" class="middle">{words.length ? 'probe ' + words.join(', ') : 'under the nozzle'}</text>
    </Picture>
  );
}

export function GridPicture() {
  const rows = [20, 36, 52, 68];
  const columns = [34, 54, 74, 94, 114];
  return (
    <Picture>
      <rect class="bed" x="20" y="8" width="110" height="72" />
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
