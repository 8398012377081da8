/** What may stand in a cell of a table for spreadsheets. */
export type CsvCell = string | number | boolean | undefined;

/**
 * How does a table read as CSV (RFC 4180: commas, CRLF, quotes doubled)? A text that a spreadsheet would take for a
 * formula, that is one beginning with =, +, -, @, a tab or a line break, full-width forms and leading space included, gets an
 * apostrophe in front; figures of ours do not. Truth values read yes and no, `undefined` is an empty cell.
 */
export function csvText(header: readonly string[], rows: readonly (readonly CsvCell[])[]): string {
  return [header, ...rows].map(csvLine).join('');
}

/** How does one row of such a table read? */
export function csvLine(row: readonly CsvCell[]): string {
  return `${row.map(csvCell).join(',')}\r\n`;
}

function csvCell(cell: CsvCell): string {
  if (cell === undefined) return '';
  if (typeof cell === 'number') return String(cell);
  if (typeof cell === 'boolean') return cell ? 'yes' : 'no';
  const text = guarded(cell.replace(/\p{Surrogate}/gu, '\ufffd').replaceAll('\0', '\ufffd'));
  return /[",\r\n]/.test(text) ? `"${text.replaceAll('"', '""')}"` : text;
}

function guarded(text: string): string {
  return /^[\s\p{Cf}]*[=+\-@＝＋－＠\t\r\n]/u.test(text) ? `'${text}` : text;
}
