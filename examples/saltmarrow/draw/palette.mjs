/**
 * The swatches of Saltmarrow's pilots: muted harbour colors.
 */
export const palette = {
  ground: '#f3ead8',
};
