/** The bundler turns a WebAssembly module into its bytes. */
declare module "*.wasm" {
  const bytes: Uint8Array<ArrayBuffer>;
  export default bytes;
}
