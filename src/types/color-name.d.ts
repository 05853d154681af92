/** CSS colour names (css-color-4, 6.1) as red, green, blue, 0…255. */
declare module 'color-name' {
  const names: Readonly<Record<string, readonly [number, number, number]>>;
  export default names;
}
