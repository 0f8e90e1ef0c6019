import { readFileSync } from 'node:fs';
import { defineConfig, type Options } from 'tsup';

/** Stage folders, each one sub-path export, in the order of the whole surface. */
const stages = [...readFileSync('src/index.ts', 'utf8').matchAll(/'\.\/(\w+)\/index\.ts'/g)].map(
  ([, stage]) => stage!,
);

type Plugin = NonNullable<Options['esbuildPlugins']>[number];

/**
 * What makes strided copies. ndarray-ops generates code when it is evaluated, which a strict
 * Content-Security-Policy forbids; both are bundled so that they are evaluated at the first such copy,
 * and left out by bundlers where there is none.
 */
const LAZY: Record<string, string> = {
  ndarray: "export default (...args) => require('ndarray')(...args);",
  'ndarray-ops': "export default { get assign() { return require('ndarray-ops').assign; } };",
};

const lazyCopies: Plugin = {
  name: 'lazy-copies',
  setup(build) {
    build.onResolve({ filter: /^ndarray(-ops)?$/ }, ({ kind, path }) =>
      kind === 'import-statement' ? { path, namespace: 'lazy' } : undefined,
    );
    build.onLoad({ filter: /.*/, namespace: 'lazy' }, ({ path }) => ({
      contents: LAZY[path]!,
      resolveDir: process.cwd(),
    }));
  },
};

/**
 * Marks the wrapped CommonJS modules as free of side effects, so that a bundler leaves out those that
 * nothing asks for: most calls never make a strided copy of their own.
 */
const pureModules: NonNullable<Options['plugins']>[number] = {
  name: 'pure-modules',
  renderChunk: (code) => ({
    code: code.replaceAll('= __commonJS({', '= /* @__PURE__ */ __commonJS({'),
  }),
};

const common: Options = {
  entry: {
    index: 'src/index.ts',
    ...Object.fromEntries(stages.map((stage) => [stage, `src/${stage}/index.ts`])),
  },
  target: 'es2022',
  platform: 'neutral',
  splitting: true,
  treeshake: false,
  esbuildPlugins: [lazyCopies],
  plugins: [pureModules],
  esbuildOptions: (options) => {
    options.mainFields = ['module', 'main'];
  },
};

const config: ReturnType<typeof defineConfig> = defineConfig((flags) => [
  {
    ...common,
    format: 'esm',
    dts: flags.dts ?? true,
    noExternal: ['ndarray', 'ndarray-ops', 'fflate'],
  },
  {
    ...common,
    format: 'cjs',
    dts: flags.dts ?? true,
    // fast-png is ESM only; bundling it lets require() work on every Node 20.
    noExternal: ['ndarray', 'ndarray-ops', 'fflate', 'fast-png', 'iobuffer'],
  },
]);
export default config;
