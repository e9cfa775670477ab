// The work, for what stands deep in a view.

import {createContext} from 'preact';
import {useContext} from 'preact/hooks';
import type {Work} from '../work';

export const WorkContext = createContext<Work | undefined>(undefined);

export function useTheWork(): Work {
  const work = useContext(WorkContext);
  if (!work) throw new Error('no work');
  return work;
}
