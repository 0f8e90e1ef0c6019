import { statSync } from 'node:fs';
import type { ViteUserConfig } from 'vitest/config';
import { BaseSequencer, type TestSpecification } from 'vitest/node';
import tests from '../../tests/vitest.config.ts';

/** Small files first, as they are quick and one failure ends the run of a mutant. */
class SmallFirst extends BaseSequencer {
  override async sort(files: TestSpecification[]): Promise<TestSpecification[]> {
    const size = ({ moduleId }: TestSpecification) => statSync(moduleId).size;
    return [...files].sort((a, b) => size(a) - size(b));
  }
}

const config: ViteUserConfig = {
  ...tests,
  root: new URL('../..', import.meta.url).pathname,
  test: {
    ...tests.test,
    include: process.env.UNDERINK_MUTATION_TESTS!.split(','),
    setupFiles: [...tests.test.setupFiles, 'bench/mutation/setup.ts'],
    sequence: { sequencer: SmallFirst },
    isolate: false,
  },
};
export default config;
