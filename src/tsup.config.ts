import { readFileSync } from 'node:fs';
import { defineConfig, type Options } from 'tsup';

/** Stage folders, each one sub-path export, in the order of the whole surface. */
const stages = [...readFileSync('src/index.ts', 'utf8').matchAll(/'\.\/(\w+)\/index\.ts'/g)].map(
  ([, stage]) => stage!,
);

type Plugin = NonNullable<Options['esbuildPlugins']>[number];

/**
 * ndarray-ops generates code when it is evaluated, which a strict Content-Security-Policy forbids.
 * It is bundled behind a getter, so that it is evaluated at the first strided copy.
 */
const lazyOps: Plugin = {
  name: 'lazy-ndarray-ops',
  setup(build) {
    build.onResolve({ filter: /^ndarray-ops$/ }, ({ kind }) =>
      kind === 'import-statement' ? { path: 'ndarray-ops', namespace: 'lazy' } : undefined,
    );
    build.onLoad({ filter: /.*/, namespace: 'lazy' }, () => ({
      contents: "export default { get assign() { return require('ndarray-ops').assign; } };",
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
  esbuildPlugins: [lazyOps],
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
    noExternal: ['ndarray-ops', 'fflate'],
  },
  {
    ...common,
    format: 'cjs',
    dts: flags.dts ?? true,
    // fast-png is ESM only; bundling it lets require() work on every Node 20.
    noExternal: ['ndarray-ops', 'fflate', 'fast-png', 'iobuffer'],
  },
]);
export default config;
