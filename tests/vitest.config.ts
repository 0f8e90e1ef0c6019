import type { ViteUserConfig } from 'vitest/config';

const config: ViteUserConfig = {
  root: new URL('..', import.meta.url).pathname,
  // Benches that tests import read the sources, so that nothing need be built.
  resolve: { alias: { underink: new URL('../src/index.ts', import.meta.url).pathname } },
  test: {
    include: ['tests/**/*.test.ts'],
    setupFiles: ['tests/support/seed.ts'],
    testTimeout: 120_000,
    hookTimeout: 120_000,
    coverage: { provider: 'v8', include: ['src/**'], reporter: ['text-summary', 'json-summary'] },
  },
};
export default config;
