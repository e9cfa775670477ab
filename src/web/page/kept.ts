// The last setup, remembered on this machine if one says so.

const kKey = 'leeway-setup';

export function kept(): string | undefined {
  try {
    return localStorage.getItem(kKey) ?? undefined;
  } catch {
    return undefined;
  }
}

export function keep(text: string): void {
  try {
    localStorage.setItem(kKey, text);
  } catch {
    // A browser that keeps nothing.
  }
}

export function forget(): void {
  try {
    localStorage.removeItem(kKey);
  } catch {
    // Nothing was kept.
  }
}
