// Findings on flats without a fault that are false, by eye: `kind drawing check x,y`. The leaks lie in bands
// of one width, a pixel narrower here and there; the lines of `divided` are corners of regions that meet
// where lines cross.
export const FALSE_FINDINGS = [
  'as laid 1F9B8-1F3FB-200D-2640-FE0F leaks 283,198',
  'as laid 1F9B8-1F3FB-200D-2640-FE0F leaks 232,199',
  'as laid 1F9B8-1F3FB-200D-2640-FE0F leaks 233,226',
  'as laid 1F9B8-1F3FB-200D-2640-FE0F leaks 287,227',
  'as laid 1F5FE leaks 219,323',
  'in colors 1F9B8-1F3FB-200D-2640-FE0F leaks 283,198',
  'in colors 1F9B8-1F3FB-200D-2640-FE0F leaks 232,199',
  'in colors 1F9B8-1F3FB-200D-2640-FE0F leaks 233,226',
  'in colors 1F9B8-1F3FB-200D-2640-FE0F leaks 287,227',
  'in colors 1F5FE leaks 219,323',
  'in colors 1F945 divided 104,178',
  'in colors 1F945 divided 431,177',
];
