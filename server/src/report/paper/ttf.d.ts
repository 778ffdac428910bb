/** Fonts are bundled as their bytes. */
declare module '*.ttf' {
  const bytes: Uint8Array;
  export default bytes;
}
