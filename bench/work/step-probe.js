// Runs in the page before anything else. Tells when a step of the force was painted, without knowing the page: of each stroked
// path of hundreds of points on a large canvas it looks at the end that lies further right, and takes the time of the first task
// behind the frame in which that end had crossed the middle between the levels seen so far.
(() => {
  const probe = { steps: [], frames: 0 };
  window.stepProbe = probe;
  const pen = CanvasRenderingContext2D.prototype;
  const paths = new WeakMap();
  const { beginPath, moveTo, lineTo, stroke } = pen;
  const add = (context, x, y) => {
    const path = paths.get(context);
    if (path === undefined) return;
    if (path.points++ === 0) Object.assign(path, { firstX: x, firstY: y });
    path.x = x;
    path.y = y;
  };
  pen.beginPath = function () {
    paths.set(this, { points: 0 });
    return beginPath.call(this);
  };
  pen.moveTo = function (x, y) {
    add(this, x, y);
    return moveTo.call(this, x, y);
  };
  pen.lineTo = function (x, y) {
    add(this, x, y);
    return lineTo.call(this, x, y);
  };
  let lowest = Number.POSITIVE_INFINITY;
  let highest = Number.NEGATIVE_INFINITY;
  let up;
  pen.stroke = function (...path) {
    stroke.apply(this, path);
    const drawn = paths.get(this);
    if (drawn === undefined || drawn.points < 200 || this.canvas.clientHeight < 150) return;
    probe.frames++;
    const y = drawn.x >= drawn.firstX ? drawn.y : drawn.firstY;
    lowest = Math.min(lowest, y);
    highest = Math.max(highest, y);
    // Noise alone is no step.
    if (highest - lowest < 50) return;
    const now = y < (lowest + highest) / 2;
    if (up !== undefined && now !== up) {
      const { port1, port2 } = new MessageChannel();
      port1.onmessage = () => probe.steps.push({ at: performance.timeOrigin + performance.now(), up: now });
      port2.postMessage(0);
    }
    up = now;
  };
})();
