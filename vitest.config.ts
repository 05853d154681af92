import { defineConfig } from 'vitest/config';

export default defineConfig({
  test: {
    include: ['tests/**/*.test.ts'],
    testTimeout: 120_000,
    hookTimeout: 120_000,
    reporters: ['default', './tests/help/closing-line.ts'],
    // svg-builder's module build imports a folder, which Node refuses; bundled in line it works.
    server: { deps: { inline: ['svg-builder'] } },
    benchmark: { include: ['tests/bench/**/*.bench.ts'] },
  },
});
