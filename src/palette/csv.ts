/** A row of a CSV text with the line, from 1, on which it starts. */
export interface CsvRow {
  readonly line: number;
  readonly fields: readonly string[];
}

/**
 * The rows of a CSV text: fields in double quotes may hold separators, line ends and doubled quotes;
 * lines end in CRLF, LF or CR; a byte order mark and empty lines are passed over (RFC 4180, with
 * other line ends and separators let in, as spreadsheets write them). Fields are not trimmed. O(text).
 *
 * @throws RangeError, naming the line, for a quote inside an unquoted field, for text behind a
 *   closing quote, and for a quote that is never closed.
 */
export function parseCsv(text: string, separator: string, name: string): CsvRow[] {
  const rows: CsvRow[] = [];
  let fields: string[] = [];
  let line = 1;
  let rowLine = 1;
  let at = text.startsWith('\ufeff') ? 1 : 0;
  while (at < text.length) {
    const quoted = text[at] === '"';
    const opened = line;
    let field = '';
    if (quoted) {
      const end = closingQuote(text, at + 1);
      if (end < 0) throw new RangeError(`${name} has a quote on line ${line} that is not closed`);
      field = text.slice(at + 1, end).replaceAll('""', '"');
      line += lineEnds(field);
      at = end + 1;
    } else {
      const start = at;
      while (at < text.length && !isEnd(text[at]!, separator)) at++;
      field = text.slice(start, at);
    }
    fields.push(field);
    if (at < text.length && !isEnd(text[at]!, separator)) {
      throw new RangeError(`${name} has text behind the closing quote of a field on line ${line}`);
    }
    if (!quoted && field.includes('"')) {
      throw new RangeError(
        `${name} has a quote inside a field on line ${opened} that is not in quotes`,
      );
    }
    if (text[at] === separator) {
      at++;
      if (at < text.length && !isLineEnd(text[at]!)) continue;
      fields.push('');
    }
    at += text[at] === '\r' && text[at + 1] === '\n' ? 2 : 1;
    if (fields.length > 1 || quoted || fields[0] !== '') rows.push({ line: rowLine, fields });
    fields = [];
    rowLine = ++line;
  }
  return rows;
}

/** Place of the quote that closes a field; two quotes in a row are one of its characters. */
function closingQuote(text: string, from: number): number {
  let at = text.indexOf('"', from);
  while (at >= 0 && text[at + 1] === '"') at = text.indexOf('"', at + 2);
  return at;
}

function isEnd(letter: string, separator: string): boolean {
  return letter === separator || isLineEnd(letter);
}

function isLineEnd(letter: string): boolean {
  return letter === '\n' || letter === '\r';
}

function lineEnds(text: string): number {
  return text.match(/\r\n|\r|\n/g)?.length ?? 0;
}
