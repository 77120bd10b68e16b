package org.faultwright.faulttree;

import java.util.List;

/**
 * What makes an event true: other events, joined by connectives. The connectives are those of the
 * Open-PSA model exchange format; IEC 61025 calls {@link AtLeast} a majority vote.
 */
public sealed interface Formula {

  /** The formulas that this one joins; empty for an event and a constant. */
  List<Formula> arguments();

  /** Another event of the tree. */
  record Of(EventName event) implements Formula {
    @Override
    public List<Formula> arguments() {
      return List.of();
    }
  }

  /** Always or never true. */
  record Constant(boolean value) implements Formula {
    @Override
    public List<Formula> arguments() {
      return List.of();
    }
  }

  /** All are true; at least one argument. */
  record And(List<Formula> arguments) implements Formula {
    /** Copies the list. */
    public And {
      arguments = checked("and", arguments, 1);
    }
  }

  /** At least one is true; at least one argument. */
  record Or(List<Formula> arguments) implements Formula {
    /** Copies the list. */
    public Or {
      arguments = checked("or", arguments, 1);
    }
  }

  /** It is not true. */
  record Not(Formula argument) implements Formula {
    @Override
    public List<Formula> arguments() {
      return List.of(argument);
    }
  }

  /** An odd number of them is true; at least two arguments. Not "exactly one" of three. */
  record Xor(List<Formula> arguments) implements Formula {
    /** Copies the list. */
    public Xor {
      arguments = checked("xor", arguments, 2);
    }
  }

  /**
   * Equivalence, joined from left to right: an even number of them is false; at least two
   * arguments. Of three arguments it is the same as {@link Xor}.
   */
  record Iff(List<Formula> arguments) implements Formula {
    /** Copies the list. */
    public Iff {
      arguments = checked("iff", arguments, 2);
    }
  }

  /** Not all are true; at least two arguments. */
  record Nand(List<Formula> arguments) implements Formula {
    /** Copies the list. */
    public Nand {
      arguments = checked("nand", arguments, 2);
    }
  }

  /** None is true; at least two arguments. */
  record Nor(List<Formula> arguments) implements Formula {
    /** Copies the list. */
    public Nor {
      arguments = checked("nor", arguments, 2);
    }
  }

  /**
   * At least so many are true.
   *
   * @param min from 0 to the number of arguments
   */
  record AtLeast(int min, List<Formula> arguments) implements Formula {
    /** Copies the list. */
    public AtLeast {
      arguments = checked("atleast", arguments, 1);
      if (min < 0 || min > arguments.size()) {
        throw new IllegalArgumentException(
            "min must be in [0, " + arguments.size() + "], the number of arguments: " + min);
      }
    }
  }

  /**
   * The number of true ones lies between two numbers, both included.
   *
   * @param min from 0
   * @param max from {@code min} to the number of arguments
   */
  record Cardinality(int min, int max, List<Formula> arguments) implements Formula {
    /** Copies the list. */
    public Cardinality {
      arguments = checked("cardinality", arguments, 1);
      if (min < 0 || max < min || max > arguments.size()) {
        throw new IllegalArgumentException(
            "min and max must be in [0, "
                + arguments.size()
                + "], the number of arguments, and in order: "
                + min
                + ", "
                + max);
      }
    }
  }

  /** If the first is true, so is the second. */
  record Imply(Formula condition, Formula consequence) implements Formula {
    @Override
    public List<Formula> arguments() {
      return List.of(condition, consequence);
    }
  }

  private static List<Formula> checked(String connective, List<Formula> arguments, int least) {
    if (arguments.size() < least) {
      throw new IllegalArgumentException(
          connective + " must have at least " + least + " arguments: " + arguments.size());
    }
    return List.copyOf(arguments);
  }
}
