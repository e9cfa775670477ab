// Numbers as people type them in a field of its own.

const kInch = 25.4;  // exactly, by the international yard and pound agreement of 1959

// mm; nothing when it is no number. "12", "-38,5", "1.5 in", "12 mm".
export function lengthIn(text: string): number | undefined {
  const found = /^\s*([+\-\u2212]?\d*(?:[.,]\d*)?)\s*(mm|in|inch|"|\u2033)?\s*$/i.exec(text);
  if (!found || !/\d/.test(found[1] ?? '')) return undefined;
  const value = Number((found[1] ?? '').replace(',', '.').replace('\u2212', '-'));
  const unit = (found[2] ?? 'mm').toLowerCase();
  return tidy(unit === 'mm' ? value : value * kInch);
}

// As it goes to the engine: mm where it is a number, else as it stands, for the engine to say.
export function plain(text: string): string {
  const value = lengthIn(text);
  return value === undefined ? text.trim() : String(value);
}

// To a ten-thousandth.
export function tidy(value: number): number { return Math.round(value * 1e4) / 1e4 + 0; }

export function shownNumber(value: number): string { return String(tidy(value)); }

export function snapped(value: number, step: number): number { return tidy(Math.round(value / step) * step); }
