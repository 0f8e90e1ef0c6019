export function drawCrab() {}
