// A table as comma-separated values, which a spreadsheet cannot take for formulas: names and file
// names are typed by others.

/** A cell that begins so would be reckoned out, by common advice, no source. */
const FORMULA = /^[=+\-@\t\r\n|%]/;

export function csvCell(value: string | number | null): string {
  if (value === null) return '';
  if (typeof value === 'number') return String(value);
  const safe = FORMULA.test(value.trimStart()) || FORMULA.test(value) ? `'${value}` : value;
  return `"${safe.replaceAll('"', '""')}"`;
}

/** RFC 4180, section 2, with a mark of the letters' code in front, which spreadsheets look for. */
export function csvText(rows: readonly (readonly (string | number | null)[])[]): string {
  return `\ufeff${rows.map((row) => row.map(csvCell).join(',')).join('\r\n')}\r\n`;
}
