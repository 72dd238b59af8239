// Runs in the page before anything else. Tells when a curve was first painted, without knowing the page: a stroke or fill of a
// path with hundreds of points on a canvas at least 150 px high. Also counts such paints and keeps the times of frames.
(() => {
  const probe = { drawn: undefined, paints: 0, frames: [], recording: false };
  window.curveProbe = probe;
  const pen = CanvasRenderingContext2D.prototype;
  const points = new WeakMap();
  const { beginPath, lineTo, stroke, fill } = pen;
  pen.beginPath = function () {
    points.set(this, 0);
    return beginPath.call(this);
  };
  pen.lineTo = function (x, y) {
    points.set(this, (points.get(this) ?? 0) + 1);
    return lineTo.call(this, x, y);
  };
  function painted(context) {
    if ((points.get(context) ?? 0) < 200 || context.canvas.clientHeight < 150) return;
    probe.paints++;
    // Painted now, shown with the next frame: the task behind that frame's callbacks is the first after it.
    if (probe.drawn === undefined) {
      probe.drawn = 0;
      requestAnimationFrame(() => {
        const { port1, port2 } = new MessageChannel();
        port1.onmessage = () => {
          probe.drawn = performance.now();
        };
        port2.postMessage(0);
      });
    }
  }
  pen.stroke = function (...path) {
    stroke.apply(this, path);
    painted(this);
  };
  pen.fill = function (...path) {
    fill.apply(this, path);
    painted(this);
  };
  const tick = (now) => {
    if (probe.recording) probe.frames.push({ now, paints: probe.paints });
    requestAnimationFrame(tick);
  };
  requestAnimationFrame(tick);
})();
