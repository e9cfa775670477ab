// Another setup beside the one that is worked on: its own session, drawn to the same scale.

import type {Answer, Box, Fault, Frame, Read, Setup} from './answers';
import {Engine} from './engine';

export interface Other {
  setup: Setup;
  frame: Frame;
}

export class OtherSession {
  private engine: Engine | undefined;
  private setup: Setup | undefined;

  // The setup is in the answer's frame's place only once it was read.
  async read(module: Promise<WebAssembly.Module>, what: object): Promise<Fault[]> {
    this.engine ??= new Engine(module);
    const answer: Answer<Read> = await this.engine.call<Read>({do: 'read', ...what});
    if (!answer.ok) return answer.faults;
    this.setup = answer.setup;
    return [];
  }

  // Drawn as wide, and what of the machine is seen.
  async draw(width: number, extent: Box | undefined): Promise<Other | undefined> {
    if (!this.engine || !this.setup) return undefined;
    const {setup} = this;
    const frame = await this.engine.call<Frame>({do: 'frame', points: false, plan: {width, titles: false, ...(extent ? {extent} : {})}});
    return frame.ok && setup === this.setup ? {setup, frame: {...frame, plan: renamed(frame.plan)}} : undefined;
  }

  close(): void { this.setup = undefined; }
}

// Two plans in one document: what the second refers to within itself has names of its own.
function renamed(plan: string): string {
  return plan.replace(/(\bid="|url\(#|href="#|labelledby="|labelledby="[\w-]+ )plan-/g, '$1other-')
             .replace(/(labelledby="other-[\w-]+ )plan-/g, '$1other-')
             .replace(/\bid="p-/g, 'id="other-p-');
}

export function joined(a: Box, b: Box): Box {
  return [Math.min(a[0], b[0]), Math.max(a[1], b[1]), Math.min(a[2], b[2]), Math.max(a[3], b[3])];
}
