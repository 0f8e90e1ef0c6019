// Findings on flats without a fault that are false, by eye: `kind drawing check x,y`.
export const FALSE_FINDINGS = [];
