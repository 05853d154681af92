// Bundles the benchmark into dist/bench-nest and runs it: Node 20 does not run TypeScript.
import { build } from 'esbuild';

const outdir = new URL('../../../dist/bench-nest/', import.meta.url);
await build({
  bundle: true,
  platform: 'node',
  target: 'node20',
  format: 'esm',
  entryPoints: ['main', 'worker'].map((name) => new URL(`./${name}.ts`, import.meta.url).pathname),
  outdir: outdir.pathname,
  banner: {
    js: "import { createRequire as requireFor } from 'node:module';const require = requireFor(import.meta.url);",
  },
  logLevel: 'warning',
});
await import(new URL('main.js', outdir).href);
