/**
 * Vertical stiffness of a hop from its times, N/m: m pi (t_f + t_c) / (t_c^2 ((t_f + t_c) / pi - t_c / 4)).
 *
 * @param mass kg
 * @param contact t_c, s
 * @param flight t_f, s
 * Source: Dalleau et al. 2004, Int J Sports Med 25:170-176 (from memory).
 */
export const hopStiffness = (mass: number, contact: number, flight: number): number =>
  (mass * Math.PI * (flight + contact)) / (contact * contact * ((flight + contact) / Math.PI - contact / 4));
