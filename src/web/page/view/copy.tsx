// A button that copies a text, and says that it did.

import {useRef, useState} from 'preact/hooks';

interface Props {
  label: string;
  what: string;  // "the link": said when it is done
  text: string | (() => Promise<string>);
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

export function Copy({label, what, text}: Props) {
  const [said, say] = useState('');
  const timer = useRef(0);
  const copy = async () => {
    const done = await intoClipboard(typeof text === 'string' ? text : await text());
    say(done ? 'Copied' : 'This browser does not let it be copied');
    clearTimeout(timer.current);
    timer.current = window.setTimeout(() => say(''), 2500);
  };
  return (
    <>
      <button type="button" class={said ? 'copy copied' : 'copy'} onClick={() => void copy()}
              aria-label={label === 'Copy' && !said ? `Copy ${what}` : undefined}>{said || label}</button>
      <span class="unseen" role="status">{said ? `${said}: ${what}` : ''}</span>
    </>
  );
}
