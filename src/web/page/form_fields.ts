// What the form holds, and how the engine's readers take it: as the options of the command.

import {plain} from './typed';

export type Values = Record<string, string>;

export interface Typed {
  values: Values;
  obstacles: Values[];
  parts: Values[];
}

export const kNothing: Typed = {values: {}, obstacles: [], parts: []};

const kSides = ['left', 'right', 'front', 'back'] as const;

// As it goes to the engine; empty where nothing was typed at all.
function joined(values: Values, names: readonly string[], between: string): string {
  const texts = names.map((name) => plain(values[name] ?? ''));
  return texts.every((text) => text === '') ? '' : texts.join(between);
}

function bounds(values: Values, before = ''): string {
  const [left, right, front, back] = kSides.map((side) => plain(values[before + side] ?? ''));
  return [left, right, front, back].every((text) => text === '') ? '' : `${left}..${right},${front}..${back}`;
}

function margins(values: Values): string {
  const all = plain(values.margins ?? '');
  const own = kSides.map((side) => plain(values['margin-' + side] ?? ''));
  if (own.every((text) => text === '')) return all;
  return kSides.map((side, i) => `${side}=${own[i] === '' ? all : own[i]}`).join(',');
}

function round(values: Values, name: string): string {
  const radius = plain(values[name] ?? '');
  return radius === '' ? '' : 'round:' + radius;
}

// Name, shape and height of an obstacle, or of a part of the head.
function placed(values: Values): string {
  const [height, keep] = [plain(values.height ?? ''), plain(values.keep ?? '')];
  const off = height === '' || keep === '' ? '' : '+' + keep;  // "@+1" would be a height
  return `${(values.name ?? '').trim()}=${bounds(values)}@${height}${off}`;
}

export function isRound(values: Values): boolean { return values.shape === 'round'; }
export function travelsRound(values: Values): boolean { return isRound(values) && values['travel-shape'] !== 'rectangle'; }

export function fieldsOf({values, obstacles, parts}: Typed): Record<string, unknown> {
  const fields: Record<string, unknown> = {
    bed: isRound(values) ? round(values, 'radius') : joined(values, ['width', 'depth'], 'x'),
    travel: travelsRound(values) ? round(values, 'travel-radius') : bounds(values),
    offset: joined(values, ['x', 'y'], ','),
    grid: joined(values, ['columns', 'rows'], 'x'),
    margins: margins(values),
    uncertainty: joined(values, ['unsure-x', 'unsure-y'], ','),
    home: joined(values, ['home-x', 'home-y'], ','),
    name: (values.name ?? '').trim(),
  };
  for (const name of ['spot', 'edge-distance', 'trigger-height', 'travel-height']) fields[name] = plain(values[name] ?? '');
  for (const name of ['margins-from', 'grid-frame']) fields[name] = values[name] ?? '';
  if (values.shape === 'centre') fields.origin = 'centre';
  if (values['skip-outside']) fields['skip-outside'] = true;
  if (obstacles.length > 0) fields.obstacle = obstacles.map(placed);
  if (parts.length > 0) fields.part = parts.map(placed);
  return fields;
}
