// What the form holds, and the boxes of each field as the engine takes them: each text as it was typed.

export type Values = Record<string, string>;

export interface Typed {
  values: Values;
  obstacles: Values[];
  parts: Values[];
}

export const kNothing: Typed = {values: {}, obstacles: [], parts: []};

const kEnds = ['left', 'right', 'front', 'back'];
const kOwnMargins = kEnds.map((side) => 'margin-' + side);

export function isRound(values: Values): boolean { return values.shape === 'round'; }
export function travelsRound(values: Values): boolean { return isRound(values) && values['travel-shape'] !== 'rectangle'; }

function ownMargins(values: Values): boolean { return kOwnMargins.some((name) => (values[name] ?? '').trim() !== ''); }

// The names of a field's boxes, in the engine's order.
export function boxesOf(field: string, values: Values): string[] {
  switch (field) {
    case 'bed': return isRound(values) ? ['radius'] : ['width', 'depth'];
    case 'travel': return travelsRound(values) ? ['travel-radius'] : kEnds;
    case 'offset': return ['x', 'y'];
    case 'grid': return ['columns', 'rows'];
    case 'margins': return ownMargins(values) ? kOwnMargins : ['margins'];
    case 'uncertainty': return ['unsure-x', 'unsure-y'];
    case 'home': return ['home-x', 'home-y'];
    case 'obstacle': return ['name', ...kEnds, 'height', 'keep'];
    case 'part': return ['name', ...kEnds, 'height'];
    default: return [field];
  }
}

const kBoxed = ['bed', 'travel', 'offset', 'grid', 'margins', 'uncertainty', 'home', 'spot', 'edge-distance', 'trigger-height',
                'travel-height'];

function boxed(field: string, values: Values): string[] {
  const texts = boxesOf(field, values).map((name) => values[name] ?? '');
  // A side without a margin of its own has that of all.
  return field === 'margins' ? texts.map((text) => (text.trim() === '' ? values.margins ?? '' : text)) : texts;
}

export function fieldsOf({values, obstacles, parts}: Typed): Record<string, unknown> {
  const fields: Record<string, unknown> = {name: (values.name ?? '').trim()};
  for (const field of kBoxed) fields[field] = boxed(field, values);
  for (const name of ['margins-from', 'grid-frame']) fields[name] = values[name] ?? '';
  if (values.shape === 'centre') fields.origin = 'centre';
  if (values['skip-outside']) fields['skip-outside'] = true;
  if (obstacles.length > 0) fields.obstacle = obstacles.map((one) => boxed('obstacle', one));
  if (parts.length > 0) fields.part = parts.map((one) => boxed('part', one));
  return fields;
}
