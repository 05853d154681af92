// Bundles the program into dist/. Node 20 does not run TypeScript, and one dependency's module build cannot be
// imported by Node as it is. The readers of meshes and the PDF writer stay outside: they are loaded when needed.
import { build } from 'esbuild';

const shared = {
  bundle: true,
  platform: 'node',
  target: 'node20',
  format: 'esm',
  external: ['three', 'three/*', 'three-mesh-bvh', 'pdfkit'],
  // Bundled CommonJS packages still call require; the name must not clash with a dependency's own createRequire.
  banner: {
    js: "import { createRequire as requireFor } from 'node:module';const require = requireFor(import.meta.url);",
  },
  logLevel: 'warning',
};
await build({
  ...shared,
  entryPoints: { lynchet: 'cli/main.ts', worker: 'cli/worker.ts', index: 'src/index.ts' },
  outdir: 'dist',
  chunkNames: 'chunk-[hash]',
  splitting: true,
});
