/** The sheet as its text, where a page carries it in itself. */
declare module '*.css' {
  const text: string;
  export default text;
}
