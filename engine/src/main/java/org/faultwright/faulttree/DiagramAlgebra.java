package org.faultwright.faulttree;

import java.util.List;

/** Joins functions as binary decision diagrams. */
record DiagramAlgebra(Diagrams diagrams)
    implements FaultLogic.Algebra<Integer, OverBudgetException> {

  @Override
  public Integer constant(boolean value) {
    return value ? Diagrams.ONE : Diagrams.ZERO;
  }

  @Override
  public Integer not(Integer a) throws OverBudgetException {
    return diagrams.not(a);
  }

  @Override
  public Integer and(List<Integer> of) throws OverBudgetException {
    int all = Diagrams.ONE;
    // from the end, where the later variables are: smaller diagrams on the way
    for (int i = of.size() - 1; i >= 0; i--) {
      all = diagrams.and(all, of.get(i));
    }
    return all;
  }

  @Override
  public Integer or(List<Integer> of) throws OverBudgetException {
    int any = Diagrams.ZERO;
    for (int i = of.size() - 1; i >= 0; i--) {
      any = diagrams.or(any, of.get(i));
    }
    return any;
  }

  @Override
  public Integer odd(List<Integer> of) throws OverBudgetException {
    int odd = Diagrams.ZERO;
    for (int i = of.size() - 1; i >= 0; i--) {
      odd = diagrams.xor(odd, of.get(i));
    }
    return odd;
  }

  @Override
  public Integer atLeast(int min, List<Integer> of) throws OverBudgetException {
    // reached[k]: at least k of those from the present one on
    int[] reached = new int[min + 1];
    reached[0] = Diagrams.ONE;
    for (int i = of.size() - 1; i >= 0; i--) {
      int x = of.get(i);
      for (int k = Math.min(min, of.size() - i); k >= 1; k--) {
        reached[k] = diagrams.or(diagrams.and(x, reached[k - 1]), diagrams.andNot(reached[k], x));
      }
    }
    return reached[min];
  }
}
