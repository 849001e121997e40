/** Style sheets are bundled beside the script. */
declare module "*.css";
