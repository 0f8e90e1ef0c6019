export function drawOtter() {}
