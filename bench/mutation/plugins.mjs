// What Stryker has no option for: mutating only a random sample, and leaving out the words of errors.
import { numbers } from '../fuzz/numbers.mjs';

/** What names a mutant from one run to the next, as long as the source stays. */
export const keyOf = ({ fileName, location, mutatorName, replacement }) => {
  const { start, end } = location;
  const place = `${start.line}:${start.column}-${end.line}:${end.column}`;
  return `${fileName.slice(fileName.lastIndexOf('/src/') + 1)}:${place} ${mutatorName} ${replacement}`;
};

/**
 * Passes the chosen mutants only: those of `options.sample.keys`, else `size` of them drawn by `seed`.
 * Stryker asks for all mutants at once, so each is drawn with the same chance.
 */
class Sample {
  static inject = ['options'];
  #rule;
  #chosen = new Set();

  constructor(options) {
    this.#rule = options.sample;
  }

  async init() {}

  async group(mutants) {
    const { keys, size, seed } = this.#rule;
    const order = mutants.map((mutant) => ({ id: mutant.id, key: keyOf(mutant) }));
    order.sort((a, b) => (a.key < b.key ? -1 : 1));
    const random = numbers(seed);
    for (let i = order.length - 1; i > 0; i--) {
      const j = random(i + 1);
      [order[i], order[j]] = [order[j], order[i]];
    }
    const wanted = keys && new Set(keys);
    const chosen = wanted ? order.filter(({ key }) => wanted.has(key)) : order.slice(0, size);
    this.#chosen = new Set(chosen.map(({ id }) => id));
    return [mutants.map(({ id }) => id)];
  }

  async check(mutants) {
    return Object.fromEntries(
      mutants.map(({ id }) => [
        id,
        this.#chosen.has(id)
          ? { status: 'passed' }
          : { status: 'compileError', reason: 'not drawn' },
      ]),
    );
  }
}

/** Calls whose texts only make the sentence of an error. */
const WORDING = /^(check|wrong|unknown|didYouMean|too|malformed|partial)\w*$|Argument$|Head$/;

/**
 * The words of errors are held by the generated `docs/errors.md`, which the tests of the folder do not
 * make: neither what a `throw` says nor the texts that an argument check takes. Whether it throws, is mutated.
 */
const errorWords = {
  shouldIgnore(path) {
    if (path.isThrowStatement()) return 'docs/errors.md holds the words of errors';
    if (!path.isStringLiteral() && !path.isTemplateLiteral()) return undefined;
    const call = path.findParent((above) => above.isCallExpression() || above.isStatement());
    const name = call?.isCallExpression() ? call.node.callee.name : undefined;
    return name && WORDING.test(name) ? 'docs/errors.md holds the words of errors' : undefined;
  },
};

export const strykerPlugins = [
  { kind: 'Checker', name: 'sample', injectableClass: Sample },
  { kind: 'Ignore', name: 'error-words', value: errorWords },
];

export const strykerValidationSchema = { properties: { sample: { type: 'object' } } };
