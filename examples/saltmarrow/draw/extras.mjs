export function drawExtras() {}
