/** The content of a drawing as a table, collapsed below it. */
interface Props {
  /** The accessible name of the table. */
  readonly name: string;
  readonly head: readonly string[];
  readonly rows: readonly (readonly string[])[];
}

/** The table; the first cell of each row is its header. */
export function TextTable({ name, head, rows }: Props) {
  return (
    <details>
      <summary>As a table</summary>
      <table aria-label={name}>
        <thead>
          <tr>
            {head.map((cell) => (
              <th scope="col" key={cell}>
                {cell}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {rows.map(([first, ...others], row) => (
            <tr key={row}>
              <th scope="row">{first}</th>
              {others.map((cell, column) => (
                <td key={column}>{cell}</td>
              ))}
            </tr>
          ))}
        </tbody>
      </table>
    </details>
  );
}
