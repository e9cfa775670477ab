// Numbers as they are shown. What was typed, the engine reads.

// To a ten-thousandth.
export function tidy(value: number): number { return Math.round(value * 1e4) / 1e4 + 0; }

export function shownNumber(value: number): string { return String(tidy(value)); }

export function snapped(value: number, step: number): number { return tidy(Math.round(value / step) * step); }
