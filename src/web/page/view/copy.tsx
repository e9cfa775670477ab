// A button that copies a text, and says that it did.

import {useRef, useState} from 'preact/hooks';

interface Props {
  label: string;
  what: string;  // "the link": said when it is done
  text: Text;
}

// Where a file may not use the clipboard, a selection still can.
async function intoClipboard(text: string): Promise<boolean> {
  try {
    await navigator.clipboard.writeText(text);
    return true;
  } catch {
    const field = document.createElement('textarea');
    field.value = text;
    field.className = 'unseen';
    document.body.append(field);
    const before = document.activeElement;
    field.select();
    const done = document.execCommand('copy');
    field.remove();
    if (before instanceof HTMLElement) before.focus();
    return done;
  }
}

type Text = string | (() => Promise<string>);

function useCopy(text: Text): [said: string, copy: () => Promise<void>] {
  const [said, say] = useState('');
  const timer = useRef(0);
  const copy = async () => {
    const done = await intoClipboard(typeof text === 'string' ? text : await text());
    say(done ? 'Copied' : 'This browser does not let it be copied');
    clearTimeout(timer.current);
    timer.current = window.setTimeout(() => say(''), 2500);
  };
  return [said, copy];
}

function Told({said, what}: {said: string; what: string}) {
  return <span class="unseen" role="status">{said ? `${said}: ${what}` : null}</span>;
}

export function Copy({label, what, text}: Props) {
  const [said, copy] = useCopy(text);
  return (
    <>
      <button type="button" class={said ? 'copy copied' : 'copy'} onClick={() => void copy()}>{said || label}</button>
      <Told said={said} what={what} />
    </>
  );
}

// A number that is copied by a click on it; `of` says what it is, `label` which of several.
export function CopyNumber({label, of, text}: {label: string; of: string; text: string}) {
  const [said, copy] = useCopy(text);
  return (
    <span class="number">
      <button type="button" class={said ? 'copied' : ''} onClick={() => void copy()}>
        <span class="unseen">Copy {of}: </span>
        {label || said ? <small>{said || label}</small> : null} <span class="value">{text}</span></button>
      <Told said={said} what={label ? `${of}, ${label}` : of} />
    </span>
  );
}
