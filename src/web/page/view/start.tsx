// How a setup comes in: five numbers, an example, a file, a link.

import {useEffect, useState} from 'preact/hooks';
import type {Answer, Example} from '../answers';
import {hasSetup} from '../link';
import type {State, Work} from '../work';
import {openFiles} from './app';
import {Five} from './form';

export function Start({work, state}: {work: Work; state: State}) {
  return (
    <main class="start">
      <div class="lead">
        <h1>Which points can the probe reach?</h1>
        <p>The probe hangs beside the nozzle. To put it over a point, the nozzle has to go somewhere else: perhaps past
          the end of its travel, or onto a clip. Give five numbers and see. Nothing leaves this machine.</p>
      </div>
      <Five work={work} />
      <Others work={work} state={state} />
    </main>
  );
}

function Others({work, state}: {work: Work; state: State}) {
  const [examples, setExamples] = useState<Example[]>([]);
  useEffect(() => {
    const look = async () => {
      const answer: Answer<{examples: Example[]}> = await work.engine.call({do: 'examples'});
      if (answer.ok) setExamples(answer.examples);
    };
    void look();
  }, [work]);
  const open = async (name: string) => work.set({faults: await work.read({example: name}, 'example')});
  return (
    <div class="others">
      <section aria-labelledby="own-file">
        <h2 id="own-file">Or a setup that you have</h2>
        <label class="file">Open a file, with its profiles beside it; or drop it on this page
          <input type="file" multiple accept=".json,application/json"
                 onChange={(event) => { const {files} = event.currentTarget; if (files?.length) void openFiles(work, files); }} />
        </label>
        <Pasted work={work} />
        {state.notice ? <p class="fault">{state.notice}</p> : null}
      </section>
      <section aria-labelledby="examples">
        <h2 id="examples">Or an example</h2>
        <ul class="examples">{examples.map((example) => (
          <li><button type="button" onClick={() => void open(example.name)}><b>{example.title}</b> <span>{example.says}</span></button></li>
        ))}</ul>
      </section>
    </div>
  );
}

function Pasted({work}: {work: Work}) {
  const [text, setText] = useState('');
  const open = async () => {
    if (text.trim() === '') return;
    if (hasSetup(text)) await work.openLink(text);
    else work.set({faults: await work.read({text, name: 'what was pasted'}, 'pasted')});
  };
  return (
    <div class="pasted">
      <label>Or paste a link or the text of a setup
        <textarea rows={2} spellcheck={false} value={text} onInput={(event) => setText(event.currentTarget.value)} />
      </label>
      <button type="button" disabled={text.trim() === ''} onClick={() => void open()}>Open it</button>
    </div>
  );
}
