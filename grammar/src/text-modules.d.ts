/** The bundler and the test runner hand a plan or library file on as its text. */
declare module '*.lwl' {
  const text: string;
  export default text;
}
