/** The part of pdfmake that is used here; the package brings no types of its own. */
declare module 'pdfmake' {
  interface Files {
    writeFileSync(name: string, bytes: Uint8Array): void;
  }

  interface Maker {
    readonly virtualfs: Files;
    setFonts(fonts: Readonly<Record<string, Readonly<Record<'normal' | 'bold', string>>>>): void;
    setUrlAccessPolicy(allowed: (url: string) => boolean): void;
    setLocalAccessPolicy(allowed: (path: string) => boolean): void;
    createPdf(definition: object): { getBuffer(): Promise<Uint8Array> };
  }

  const maker: Maker;
  export default maker;
}
