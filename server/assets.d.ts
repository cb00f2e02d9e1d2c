/** Source files that the build takes in as text. */
declare module "*.h" {
  const text: string;
  export default text;
}

declare module "*.css" {
  const text: string;
  export default text;
}
