// Puts the engine's picture into the document: only what is another than before is touched, so that
// what stays (most of it, while something is dragged) is neither read, laid out nor painted anew.

interface Split {
  open: string;     // "<g class=...>"
  parts: string[];  // the elements within
  text: string;     // where there are none
}

// Nothing where there is text beside elements, or where the tags don't pair.
function split(text: string): Split | undefined {
  const tag = /<(\/?)[a-zA-Z][^>]*?(\/?)>/g;
  const parts: string[] = [];
  let [open, depth, from, end, words] = ['', 0, 0, 0, ''];
  for (let found = tag.exec(text); found; found = tag.exec(text)) {
    const closes = found[1] !== '';
    if (depth === 1 && end < found.index) words += text.slice(end, found.index);
    if (depth === 0) open = found[0];
    if (depth === 1 && !closes) from = found.index;
    if (closes) depth -= 1;
    else if (found[2] === '') depth += 1;
    if (depth === 1 && found.index > 0) parts.push(text.slice(from, tag.lastIndex));
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

function patchElement(element: Element, before: string, after: string): void {
  if (before === after) return;
  const [was, is] = [split(before), split(after)];
  const alike = was && is && was.parts.length === is.parts.length && element.children.length === is.parts.length &&
                kPlain.test(is.text) && patchOpen(element, was.open, is.open);
  if (!alike) {
    element.outerHTML = after;
  } else if (is.parts.length === 0) {
    if (is.text !== was.text) element.textContent = is.text;
  } else {
    const children = [...element.children];  // one that is replaced leaves the list
    is.parts.forEach((part, i) => patchElement(children[i]!, was.parts[i]!, part));
  }
}

// `before`: what was put there last.
export function putPicture(box: Element, before: string, after: string): void {
  const picture = box.firstElementChild;
  if (picture && before !== '') patchElement(picture, before, after);
  else box.innerHTML = after;
}
