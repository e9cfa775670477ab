// A setup in the fragment of an address: deflated, in letters that may stand there (RFC 4648, 5).

const kStart = '#setup=';
const kMostLetters = 2_000_000;   // of a link that is looked at
const kMostText = 4_000_000;      // of a setup in one

export const kLongLink = 8000;

async function through(bytes: Uint8Array, stream: ReadableWritablePair<Uint8Array, BufferSource>,
                       most: number): Promise<Uint8Array> {
  const reader = new Blob([bytes as BlobPart]).stream().pipeThrough(stream).getReader();
  const parts: Uint8Array[] = [];
  let length = 0;
  for (;;) {
    const {done, value} = await reader.read();
    if (done) break;
    length += value.length;
    if (length > most) {
      void reader.cancel();
      throw new Error('too long');
    }
    parts.push(value);
  }
  const all = new Uint8Array(length);
  let at = 0;
  for (const part of parts) {
    all.set(part, at);
    at += part.length;
  }
  return all;
}

export async function fragmentOf(text: string): Promise<string> {
  const packed = await through(new TextEncoder().encode(text), new CompressionStream('deflate-raw'), kMostText);
  let letters = '';
  for (const byte of packed) letters += String.fromCharCode(byte);
  return kStart + btoa(letters).replaceAll('+', '-').replaceAll('/', '_').replace(/=+$/, '');
}

// Whether a text is, or ends with, such a fragment.
export function hasSetup(text: string): boolean { return text.includes(kStart); }

// The setup in a link. Throws an Error whose message is a sentence.
export async function setupIn(link: string): Promise<string> {
  const letters = link.slice(link.indexOf(kStart) + kStart.length).trim();
  if (letters.length > kMostLetters) throw new Error('The link is too long to be one of this page.');
  try {
    const packed = atob(letters.replaceAll('-', '+').replaceAll('_', '/'));
    const bytes = Uint8Array.from(packed, (letter) => letter.charCodeAt(0));
    const text = await through(bytes, new DecompressionStream('deflate-raw'), kMostText);
    return new TextDecoder('utf-8', {fatal: true}).decode(text);
  } catch {
    throw new Error('The link is not whole: no setup can be read from it. Ask for it again.');
  }
}
