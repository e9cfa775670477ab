// Puts the engine's picture into the document: only what is another than before is touched, so that
// what stays (most of it, while something is dragged) is neither read, laid out nor painted anew.

// An element as text. What it is made of is looked up once, if ever.
export class Piece {
  private known: Split | undefined | null = null;
  constructor(readonly text: string) {}
  split(): Split | undefined {
    if (this.known === null) this.known = split(this.text);
    return this.known;
  }
}

interface Split {
  open: string;    // "<g class=...>"
  parts: Piece[];  // the elements within
  text: string;    // where there are none
}

// Nothing where there is text beside elements, or where the tags don't pair.
function split(text: string): Split | undefined {
  const tag = /<(\/?)[a-zA-Z][^>]*?(\/?)>/g;
  const parts: Piece[] = [];
  let [open, depth, from, end, words] = ['', 0, 0, 0, ''];
  for (let found = tag.exec(text); found; found = tag.exec(text)) {
    const closes = found[1] !== '';
    if (depth === 1 && end < found.index) words += text.slice(end, found.index);
    if (depth === 0) open = found[0];
    if (depth === 1 && !closes) from = found.index;
    if (closes) depth -= 1;
    else if (found[2] === '') depth += 1;
    if (depth === 1 && found.index > 0) parts.push(new Piece(text.slice(from, tag.lastIndex)));
    if (depth < 2) end = tag.lastIndex;
  }
  if (depth !== 0 || open === '' || (parts.length > 0 && words.trim() !== '')) return undefined;
  return {open, parts, text: words};
}

const kPlain = /^[^&]*$/;  // no letter is written by name or number

function attributes(open: string): [tagAndNames: string, values: string[]] {
  const values: string[] = [];
  const names = open.replace(/="([^"]*)"/g, (_, value: string) => {
    values.push(value);
    return '=';
  });
  return [names, values];
}

// Whether it could be told what differs, and it was put in.
function patchOpen(element: Element, before: string, after: string): boolean {
  if (before === after) return true;
  const [was, old] = attributes(before);
  const [is, values] = attributes(after);
  if (was !== is || !kPlain.test(after)) return false;
  const names = [...is.matchAll(/([\w:-]+)=/g)].map((found) => found[1]!);
  values.forEach((value, i) => { if (value !== old[i]) element.setAttribute(names[i]!, value); });
  return true;
}

// How many at the beginning and at the end are the same text; those of before are kept.
function alike(was: Piece[], is: Piece[]): [first: number, last: number] {
  const most = Math.min(was.length, is.length);
  let [first, last] = [0, 0];
  while (first < most && was[first]!.text === is[first]!.text) {
    is[first] = was[first]!;
    first += 1;
  }
  while (last < most - first && was.at(-1 - last)!.text === is.at(-1 - last)!.text) {
    is[is.length - 1 - last] = was.at(-1 - last)!;
    last += 1;
  }
  return [first, last];
}

// The pieces between, each on that of its place; what is left over goes, what is more comes after them.
function patchParts(element: Element, was: Piece[], is: Piece[]): void {
  const [first, last] = alike(was, is);
  const children = [...element.children].slice(first, was.length - last);
  const [old, made] = [was.slice(first, was.length - last), is.slice(first, is.length - last)];
  const both = Math.min(old.length, made.length);
  for (const child of children.slice(both)) child.remove();
  const more = made.slice(both).map((piece) => piece.text).join('');
  if (more !== '') {
    const before = children[both - 1] ?? element.children[first - 1];
    if (before) before.insertAdjacentHTML('afterend', more);
    else element.insertAdjacentHTML('afterbegin', more);
  }
  for (let i = 0; i < both; ++i) patchElement(children[i]!, old[i]!, made[i]!);
}

function patchElement(element: Element, before: Piece, after: Piece): void {
  if (before.text === after.text) return;
  const [was, is] = [before.split(), after.split()];
  const patched = was && is && was.parts.length > 0 === is.parts.length > 0 && element.children.length === was.parts.length &&
                  kPlain.test(is.text) && patchOpen(element, was.open, is.open);
  if (!patched) element.outerHTML = after.text;
  else if (is.parts.length > 0) patchParts(element, was.parts, is.parts);
  else if (is.text !== was.text) element.textContent = is.text;
}

// `before`: what was put there last.
export function putPicture(box: Element, before: Piece | undefined, after: Piece): void {
  const picture = box.firstElementChild;
  if (!picture || !before) box.innerHTML = after.text;
  else patchElement(picture, before, after);
}
