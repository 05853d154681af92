import { build } from 'esbuild';

/**
 * Load modules of the core as they ship: in one bundle. The test runner turns every imported name into a look-up, which
 * costs inner loops up to twice their time, while packages from elsewhere are loaded as they are.
 */
export async function bundled<T>(modules: Record<keyof T & string, string>): Promise<T> {
  const contents = Object.entries(modules)
    .map(([name, file]) => `export { ${name} } from ${JSON.stringify(file)};`)
    .join('\n');
  const made = await build({
    stdin: { contents, resolveDir: process.cwd() },
    bundle: true,
    platform: 'node',
    target: 'node20',
    format: 'esm',
    write: false,
    banner: {
      js: `import { createRequire } from 'node:module';const require = createRequire(${JSON.stringify(import.meta.url)});`,
    },
  });
  return import(`data:text/javascript;base64,${Buffer.from(made.outputFiles[0].contents).toString('base64')}`);
}
