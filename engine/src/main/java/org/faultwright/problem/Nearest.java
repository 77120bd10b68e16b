package org.faultwright.problem;

import java.util.Collection;
import java.util.Locale;
import java.util.Optional;

/**
 * Finds what somebody probably meant to write.
 *
 * <p>Distance is the number of letters to add, drop, change or swap with their neighbour (optimal
 * string alignment: Damerau, "A technique for computer detection and correction of spelling
 * errors", Communications of the ACM 7(3), 1964).
 */
public final class Nearest {

  /** One wrong letter in this many is still taken for a slip. */
  private static final int LETTERS_PER_SLIP = 3;

  /** Longer words are not compared: nobody mistypes them, and it would take time. */
  private static final int LONGEST = 100;

  private Nearest() {}

  /** The nearest of the words, if one is near; of several equally near the first. */
  public static Optional<String> of(String written, Collection<String> words) {
    if (written.isEmpty() || written.length() > LONGEST) {
      return Optional.empty();
    }
    String best = null;
    int bestDistance = Math.max(1, written.length() / LETTERS_PER_SLIP) + 1;
    for (String word : words) {
      if (Math.abs(word.length() - written.length()) >= bestDistance || word.length() > LONGEST) {
        continue;
      }
      int d = distance(written.toLowerCase(Locale.ROOT), word);
      if (d < bestDistance) {
        best = word;
        bestDistance = d;
      }
    }
    return Optional.ofNullable(best);
  }

  /** A way out that names the nearest word; empty where none is near. */
  public static String didYouMean(String written, Collection<String> words) {
    return of(written, words).map(w -> "did you mean '" + w + "'?").orElse("");
  }

  /** The distance between two words; cost is the product of their lengths. */
  static int distance(String a, String b) {
    int[] beforeLast = new int[b.length() + 1];
    int[] last = new int[b.length() + 1];
    int[] row = new int[b.length() + 1];
    for (int j = 0; j <= b.length(); j++) {
      last[j] = j;
    }
    for (int i = 1; i <= a.length(); i++) {
      row[0] = i;
      for (int j = 1; j <= b.length(); j++) {
        int change = a.charAt(i - 1) == b.charAt(j - 1) ? 0 : 1;
        row[j] = Math.min(Math.min(row[j - 1], last[j]) + 1, last[j - 1] + change);
        boolean swapped =
            i > 1
                && j > 1
                && a.charAt(i - 1) == b.charAt(j - 2)
                && a.charAt(i - 2) == b.charAt(j - 1);
        if (swapped) {
          row[j] = Math.min(row[j], beforeLast[j - 2] + 1);
        }
      }
      int[] spare = beforeLast;
      beforeLast = last;
      last = row;
      row = spare;
    }
    return last[b.length()];
  }
}
