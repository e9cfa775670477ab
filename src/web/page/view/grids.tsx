// Several grids side by side; a click takes one.

import {useState} from 'preact/hooks';
import type {Answer, Changes, Fault, Setup} from '../answers';
import type {State, Work} from '../work';

interface Compared {
  says: string;
  heads: string[];
  grids: {cells: string[]; says?: string; changes: Changes | null}[];  // best first
}

// What the comparison depends on: not on the grid that is asked for.
const besides = (setup: Setup) => JSON.stringify({...setup, request: {...setup.request, grid: undefined}});

const around = (count: number | undefined) => `${Math.max(2, (count ?? 5) - 2)}..${(count ?? 5) + 2}`;

export function Grids({work, state}: {work: Work; state: State}) {
  const grid = state.setup!.request?.grid;
  const [columns, setColumns] = useState(around(grid?.columns));
  const [rows, setRows] = useState(around(grid?.rows));
  const [seen, see] = useState<{of: string; answer: Answer<Compared>}>();
  if (!grid) return null;
  const look = async (event: Event) => {
    event.preventDefault();
    const of = besides(state.setup!);
    const [answer] = await work.ask<Compared>([{do: 'fit', format: 'text', columns, rows}]);
    if (answer) see({of, answer});
  };
  const answer = seen?.of === besides(state.setup!) ? seen.answer : undefined;
  return (
    <section class="group">
      <h2>Grids side by side</h2>
      <form class="row-of-dials" onSubmit={(event) => void look(event)}>
        <label class="dial">columns <input value={columns} aria-label="Columns to compare" onInput={(event) => setColumns(event.currentTarget.value)} /></label>
        <label class="dial">rows <input value={rows} aria-label="Rows to compare" onInput={(event) => setRows(event.currentTarget.value)} /></label>
        <button type="submit">Compare grids</button>
      </form>
      <div role="status">{answer ? <Table work={work} answer={answer} /> : null}</div>
    </section>
  );
}

function Faults({faults}: {faults: Fault[]}) {
  return <>{faults.map((fault) => <p class="fault">{fault.message}</p>)}</>;
}

function Table({work, answer}: {work: Work; answer: Answer<Compared>}) {
  if (!answer.ok) return <Faults faults={answer.faults} />;
  const {heads, grids, says} = answer;
  return (
    <>
      <p>{says}</p>
      <div class="scrolls" tabIndex={0} role="group" aria-label="Grids, best first">
        <table class="grids">
          <thead><tr>{heads.map((head) => <th scope="col">{head}</th>)}</tr></thead>
          <tbody>{grids.map(({cells: [name, ...cells], says: why, changes}) => (
            <tr>
              <th scope="row">{changes
                ? <button type="button" onClick={() => void work.change(changes, `grid ${name}`)}>{name}</button> : name}</th>
              {changes ? cells.map((cell) => <td>{cell}</td>) : <td colSpan={heads.length - 1}>{why}</td>}
            </tr>
          ))}</tbody>
        </table>
      </div>
    </>
  );
}
