package org.faultwright.benchmarks;

/** One that is asked for every posterior of a network given evidence. */
interface Contender {

  /** Takes all evidence back; what this costs is not measured. */
  void reset() throws Exception;

  /** Enters the evidence; returns P(state | evidence) for each node and state. */
  double[][] answer() throws Exception;
}
