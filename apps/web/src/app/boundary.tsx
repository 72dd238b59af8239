import { Component, type ReactNode } from 'react';
import { words } from '../words/index.ts';

/** Catches a failure of a page, says what is safe and what to do; the details stay folded. */
export class Boundary extends Component<{ children: ReactNode; at: string }, { failed?: Error }> {
  override state: { failed?: Error } = {};

  static getDerivedStateFromError(failed: Error) {
    return { failed };
  }

  override componentDidUpdate(before: { at: string }) {
    if (before.at !== this.props.at && this.state.failed) this.setState({ failed: undefined as never });
  }

  override render() {
    const { failed } = this.state;
    if (!failed) return this.props.children;
    return (
      <section className="page" role="alert">
        <h1>{words.app.broken}</h1>
        <p>{words.app.brokenNext}</p>
        <p>
          <button type="button" className="button" onClick={() => location.reload()}>
            {words.app.reload}
          </button>
        </p>
        <details className="small soft">
          <summary>{words.problem.code}: page-failed</summary>
          <p className="number">{failed.message}</p>
        </details>
      </section>
    );
  }
}
