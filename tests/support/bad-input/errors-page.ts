import type { CallCases } from './case.ts';
import { refusal } from './refusal.ts';

const HEAD = `# Errors

What every public call says of a wrong argument, as the tests find it (\`tests/house/bad-input.test.ts\`;
\`npm run errors:page\` writes this page anew). A \`TypeError\` tells of the wrong kind of value, a
\`RangeError\` of a wrong value of the right kind; each names the argument, what is allowed and what
came, which stands here as \`…\`. Nothing is changed before all arguments are checked. Frozen options and
rasters on a SharedArrayBuffer are taken like any other.
`;

/** Values of an argument that are refused in the same words. */
interface Line {
  readonly argument: string;
  readonly error: string;
  readonly whats: Set<string>;
}

type Lines = Map<string, Line>;

/** The page of errors, of what the cases give when they are run. */
export function errorsPage(calls: readonly CallCases[]): string {
  const kinds = new Map<string, Lines>();
  const sections = calls.map((cases) => section(cases, kinds));
  const told = [...kinds].map(([kind, lines]) => `### ${kind}\n\n${table(lines)}`);
  const head = '## Kinds of arguments\n\n`…` stands for the name of the argument.\n';
  return [HEAD, head, ...told, ...sections].join('\n');
}

/**
 * The table of a call; what is told once of a kind of argument is added to `kinds`. A kind without a
 * name of its own, a plan, has arguments within.
 */
function section(cases: CallCases, kinds: Map<string, Lines>): string {
  const lines: Lines = new Map();
  for (const { name, at, bad } of cases.args) {
    for (const one of bad) {
      const error = withoutValue(refusal(cases, at, one).text);
      if (one.of === undefined) {
        add(lines, name, error, one.what);
        continue;
      }
      const { kind, name: given } = one.of;
      const own = kinds.get(kind) ?? new Map();
      kinds.set(kind, own);
      add(lines, given === '' ? 'plan' : name, `see *${kind}*`, `not ${kind}`);
      if (given === '') add(own, name, error, one.what);
      else add(own, '…', withName(error, given), one.what);
    }
  }
  return `## ${cases.call}\n\n${table(lines)}`;
}

/** The error with `…` for the argument's name. */
function withName(error: string, name: string): string {
  return error.replace(`Error: ${name}`, 'Error: …').replace(`unique in ${name},`, 'unique in …,');
}

function add(lines: Lines, argument: string, error: string, what: string): void {
  const key = `${argument}\n${error}`;
  const line = lines.get(key) ?? { argument, error, whats: new Set<string>() };
  line.whats.add(what);
  lines.set(key, line);
}

function table(lines: Lines): string {
  const rows = [...lines.values()].map(
    ({ argument, error, whats }) =>
      `| \`${argument}\` | ${cell([...whats].join(', '))} | ${cell(error)} |`,
  );
  return ['| argument | what is wrong | error |', '|---|---|---|', ...rows, ''].join('\n');
}

/** The message up to what came; hints that follow it stay. */
function withoutValue(text: string): string {
  const came = text.indexOf(', got ');
  if (came < 0) return text.replace(/ "[^"]*"(; did you mean "\w+"\?|\.)/, ' "…";');
  const hint = text.slice(came).match(/; (?!did you mean).*$/s);
  return `${text.slice(0, came)}, got …${hint?.[0] ?? ''}`;
}

/** Text for a cell of a table of Markdown. */
function cell(text: string): string {
  return text.replaceAll('|', '\\|').replaceAll('\n', ' ').replaceAll('<', '&lt;');
}
