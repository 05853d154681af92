export async function table(_script: URL): Promise<void> {}
