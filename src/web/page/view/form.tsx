// The form: five numbers, and what else someone may know.

import {useEffect, useId, useState} from 'preact/hooks';
import type {ComponentChildren} from 'preact';
import type {Fault, Length} from '../answers';
import {boxesOf, fieldsOf, isRound, kNothing, travelsRound, type Typed, type Values} from '../form_fields';
import type {Work} from '../work';
import {useTheWork} from './context';
import {BedPicture, GridPicture, MarginPicture, OffsetPicture, TravelPicture} from './pictures';

// The form stays as it was while one looks at what came of it.
let typedBefore: Typed = kNothing;

export interface Form {
  typed: Typed;
  faults: Fault[];
  put(name: string, value: string): void;
  set(typed: Typed): void;
}

const kShapes: [string, string][] = [['', 'rectangle; 0, 0 front left'], ['centre', 'rectangle; 0, 0 in the middle'],
                                     ['round', 'round; 0, 0 in the middle']];
const kFive = ['bed', 'travel', 'offset', 'grid', 'margins'];

export function Five({work}: {work: Work}) {
  const [typed, setTyped] = useState<Typed>(typedBefore);
  const [faults, setFaults] = useState<Fault[]>([]);
  const [busy, setBusy] = useState(false);
  const [open, setOpen] = useState(false);
  const set = (next: Typed) => {
    typedBefore = next;
    setTyped(next);
  };
  const put = (name: string, value: string) => set({...typed, values: {...typed.values, [name]: value}});
  const send = async (event: Event) => {
    event.preventDefault();
    const form = event.currentTarget as HTMLElement;
    setBusy(true);
    const found = await work.form(fieldsOf(typed));
    setFaults(found);
    setBusy(false);
    if (found.some((fault) => !kFive.includes(fault.field ?? ''))) setOpen(true);
    if (found.length > 0) setTimeout(() => form.querySelector<HTMLElement>('[aria-invalid=true]')?.focus());
  };
  const form: Form = {typed, faults, put, set};
  return (
    <form class="five" onSubmit={(event) => void send(event)} noValidate aria-label="Five numbers">
      <p class="units">All in mm, x to the right and y away from you, seen from above. A length may have its unit behind it: 1.5 in.</p>
      <FiveRows form={form} />
      <p class="go"><button type="submit" class="main" disabled={busy}>Show what it can reach</button></p>
      <details class="else" open={open} onToggle={(event) => setOpen(event.currentTarget.open)}>
        <summary>What else you know <small>name, homing point, heights, clips, parts of the head; all may be left out</small></summary>
        {open ? <Else form={form} busy={busy} /> : null}
      </details>
    </form>
  );
}

function FiveRows({form}: {form: Form}) {
  const {values} = form.typed;
  const round = isRound(values);
  const middle = values.shape !== undefined && values.shape !== '';
  return (
    <>
      <Row form={form} field="bed" title="The bed" picture={(lit) => <BedPicture lit={lit} round={round} middle={middle} />}
           hint={`What prints stand on. ${middle ? 'Its middle' : 'Its front left corner'} is taken to be at 0, 0.`}
           inputs={round ? [['radius', 'radius', '105']] : [['width', 'width', '233'], ['depth', 'depth', '207']]}>
        <Choice form={form} name="shape" label="shape" of="The bed" options={kShapes} />
      </Row>
      <Row form={form} field="travel" title="The travel" picture={(lit) => <TravelPicture lit={lit} round={travelsRound(values)} />}
           hint="How far the nozzle really goes, read off the display at each end: moving slowly, the nozzle cold."
           inputs={travelsRound(values) ? [['travel-radius', 'radius', '108']]
             : [['left', 'left end', '-5'], ['right', 'right end', '239'], ['front', 'front end', '-2'], ['back', 'back end', '211']]}>
        {round ? <Choice form={form} name="travel-shape" label="shape" of="The travel"
                         options={[['', 'round'], ['rectangle', 'rectangle']]} /> : null}
      </Row>
      <Row form={form} field="offset" title="The offset" hint="From the nozzle to the probe. Left and front are negative."
           picture={(lit) => <OffsetPicture lit={lit} x={about(values.x)} y={about(values.y)} />}
           inputs={[['x', 'x', '-38.5'], ['y', 'y', '12']]} />
      <Row form={form} field="grid" title="The grid" picture={(lit) => <GridPicture lit={lit} />} hint="How many points to probe."
           inputs={[['columns', 'columns', '5'], ['rows', 'rows', '5']]} />
      <Row form={form} field="margins" title="The margins" picture={() => <MarginPicture />}
           hint="How far the grid stays from each edge of the bed." inputs={[['margins', 'all round', '20']]} />
    </>
  );
}

// Near enough to turn a picture.
function about(text: string | undefined): number | undefined {
  const value = parseFloat((text ?? '').replace(',', '.'));
  return Number.isNaN(value) ? undefined : value;
}

// Whether a fault is about that box.
function isAt(fault: Fault, field: string, name: string, values: Values, item?: number): boolean {
  if (fault.field !== field || (fault.item !== undefined && fault.item !== item)) return false;
  return fault.box === undefined || boxesOf(field, values)[fault.box] === name;
}

type Inputs = [name: string, label: string, such: string][];

interface RowProps {
  form: Form;
  field: string;
  title: string;
  hint: string;
  picture(lit: string | undefined): ComponentChildren;
  inputs: Inputs;
  children?: ComponentChildren;
}

function Row({form, field, title, hint, picture, inputs, children}: RowProps) {
  const id = useId();
  const [lit, light] = useState<string>();
  const wrong = form.faults.some((fault) => fault.field === field);
  return (
    <fieldset class={wrong ? 'row wrong' : 'row'} data-field={field} aria-describedby={id + '-hint'}
              onFocusIn={(event) => light((event.target as HTMLElement).dataset.name)} onFocusOut={() => light(undefined)}>
      <legend><span>{title}</span></legend>
      <div class="small-picture">{picture(lit)}</div>
      <div class="entry">
        <p id={id + '-hint'} class="hint">{hint}</p>
        <div class="inputs">
          {inputs.map((input) => <Input key={input[0]} form={form} field={field} of={title} input={input} faultId={id + '-fault'} />)}
          {children}
        </div>
        <FaultsOf form={form} field={field} id={id + '-fault'} />
      </div>
    </fieldset>
  );
}

export function FaultsOf({form, field, id}: {form: Form; field: string; id: string}) {
  const mine = form.faults.filter((fault) => fault.field === field);
  return <div id={id} class="fault" role="alert">{mine.map((fault) => <p>{fault.message}</p>)}</div>;
}

interface InputProps {
  form: Form;
  field: string;
  of: string;
  input: Inputs[number];
  faultId: string;
}

function Input({form, field, of, input: [name, label, such], faultId}: InputProps) {
  const wrong = form.faults.some((fault) => isAt(fault, field, name, form.typed.values));
  return (
    <TypedInput name={name} label={label} says={`${of}: ${label}`} such={such} values={form.typed.values} wrong={wrong}
                faultId={faultId} put={form.put} />
  );
}

interface TypedInputProps {
  name: string;
  label: string;
  says: string;
  such: string;
  values: Values;
  wrong: boolean;
  faultId: string;
  put(name: string, value: string): void;
}

function TypedInput({name, label, says, such, values, wrong, faultId, put}: TypedInputProps) {
  return (
    <label>{label}
      <input value={values[name] ?? ''} placeholder={such && 'e.g. ' + such} autoComplete="off" spellcheck={false}
             data-name={name} aria-label={says} aria-invalid={wrong} aria-describedby={wrong ? faultId : undefined}
             onInput={(event) => put(name, event.currentTarget.value)} />
      <InMm text={values[name] ?? ''} />
    </label>
  );
}

// What was typed with a unit, in mm, in the engine's words.
function InMm({text}: {text: string}) {
  const work = useTheWork();
  const [read, set] = useState('');
  useEffect(() => {
    set('');
    if (!/\d\s*[^\d\s.,]/.test(text)) return;
    let current = true;
    void work.engine.call<Length>({do: 'length', text}).then((answer) => {
      if (current && answer.ok) set(answer.read);
    });
    return () => { current = false; };
  }, [work, text]);
  return read === '' ? null : <small>{read}</small>;
}

interface ChoiceProps {
  form: Form;
  name: string;
  label: string;
  of: string;
  options: [value: string, says: string][];
}

function Choice({form, name, label, of, options}: ChoiceProps) {
  return (
    <label class="choice">{label}
      <select value={form.typed.values[name] ?? ''} aria-label={`${of}: ${label}`}
              onChange={(event) => form.put(name, event.currentTarget.value)}>
        {options.map(([value, says]) => <option value={value}>{says}</option>)}
      </select>
    </label>
  );
}

function Else({form, busy}: {form: Form; busy: boolean}) {
  const {values} = form.typed;
  return (
    <div class="else-rows">
      <Part form={form} field="name" title="Its name" inputs={[['name', 'name', 'Godwit']]} wide />
      <Part form={form} field="home" title="The homing point" hint="Where the nozzle stands when the probe touches for the first time."
            inputs={[['home-x', 'x', '115'], ['home-y', 'y', '105']]} />
      <Part form={form} field="uncertainty" title="The offset is known to" hint="Standard uncertainty: most measurements lie that near."
            inputs={[['unsure-x', '± x', '0.15'], ['unsure-y', '± y', '0.15']]} />
      <Part form={form} field="spot" title="The probe senses" hint="Over a disc as large as this."
            inputs={[['spot', 'radius', '4']]} />
      <Part form={form} field="edge-distance" title="It keeps from the bed's edge" inputs={[['edge-distance', 'distance', '1']]} />
      <Part form={form} field="trigger-height" title="When it triggers" hint="How high the nozzle then is above the bed."
            inputs={[['trigger-height', 'height', '2']]} />
      <Part form={form} field="travel-height" title="Between points" hint="How high the nozzle then is above the bed."
            inputs={[['travel-height', 'height', '8']]} />
      <Part form={form} field="margins" title="Margins of their own" hint="Of a side that differs from “all round”."
            inputs={[['margin-left', 'left', ''], ['margin-right', 'right', ''], ['margin-front', 'front', ''], ['margin-back', 'back', '']]}>
        <Choice form={form} name="margins-from" label="measured from" of="The margins"
                options={[['', 'the bed'], ['travel', 'the travel']]} />
        <Choice form={form} name="grid-frame" label="numbers are for" of="The grid"
                options={[['', 'the probe'], ['nozzle', 'the nozzle']]} />
      </Part>
      <p class="tick"><label><input type="checkbox" checked={values['skip-outside'] === 'yes'}
        onChange={(event) => form.put('skip-outside', event.currentTarget.checked ? 'yes' : '')} /> Leave out points of the grid that lie off the bed</label></p>
      <Placed form={form} list="obstacles" field="obstacle" title="What stands on the bed" one="clip" height="height"
              hint="Clips, screws, wipers: where each lies on the machine, how high it is, how far to keep off." keep />
      <Placed form={form} list="parts" field="part" title="What hangs beside the nozzle" one="part" height="underside"
              hint="Fan duct, heater block: where each lies from the nozzle, and how high its underside is above the nozzle's tip." />
      <p><button type="submit" class="main" disabled={busy}>Show it with all this</button></p>
    </div>
  );
}

interface PartProps {
  form: Form;
  field: string;
  title: string;
  hint?: string;
  inputs: Inputs;
  wide?: boolean;
  children?: ComponentChildren;
}

function Part({form, field, title, hint, inputs, wide, children}: PartProps) {
  const id = useId();
  return (
    <fieldset class={wide ? 'part wide' : 'part'} data-field={field}>
      <legend>{title}</legend>
      {hint ? <p class="hint">{hint}</p> : null}
      <div class="inputs">
        {inputs.map((input) => <Input key={input[0]} form={form} field={field} of={title} input={input} faultId={id} />)}
        {children}
      </div>
      <FaultsOf form={form} field={field} id={id} />
    </fieldset>
  );
}

interface PlacedProps {
  form: Form;
  list: 'obstacles' | 'parts';
  field: string;
  title: string;
  hint: string;
  one: string;
  height: string;
  keep?: boolean;
}

function Placed({form, list, field, title, hint, one, height, keep}: PlacedProps) {
  const id = useId();
  const items = form.typed[list];
  const wrong = (i: number, name: string) => form.faults.some((fault) => isAt(fault, field, name, items[i]!, i));
  const set = (next: Values[]) => form.set({...form.typed, [list]: next});
  const put = (i: number) => (name: string, value: string) => set(items.map((item, k) => (k === i ? {...item, [name]: value} : item)));
  const inputs: Inputs = [['name', 'name', ''], ['left', 'left', ''], ['right', 'right', ''], ['front', 'front', ''], ['back', 'back', ''],
                          ['height', height, ''], ...(keep ? [['keep', 'keep off', ''] as Inputs[number]] : [])];
  return (
    <fieldset class="part" data-field={field}>
      <legend>{title}</legend>
      <p class="hint">{hint}</p>
      {items.map((item, i) => (
        <div class="inputs item" key={i}>
          {inputs.map(([name, label]) => (
            <TypedInput key={name} name={name} label={label} says={`${item.name || `${one} ${i + 1}`}: ${label}`} such="" values={item}
                        wrong={wrong(i, name)} faultId={id} put={put(i)} />))}
          <button type="button" aria-label={`Leave out ${item.name || `${one} ${i + 1}`}`}
                  onClick={() => set(items.filter((_, k) => k !== i))}>Leave out</button>
        </div>
      ))}
      <button type="button" onClick={() => set([...items, {name: `${one} ${items.length + 1}`, ...(keep ? {keep: '1'} : {})}])}>Add a {one}</button>
      <FaultsOf form={form} field={field} id={id} />
    </fieldset>
  );
}
