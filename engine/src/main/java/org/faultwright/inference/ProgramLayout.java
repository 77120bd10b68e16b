package org.faultwright.inference;

import java.util.Arrays;

/** Puts operations into an order in which few changes of kind are needed. */
final class ProgramLayout {

  private final Graph graph;
  private final int[] cells;
  private final int first;
  private final int[] uses;
  private final boolean[] absorbed;

  ProgramLayout(Graph graph, int[] cells, int first) {
    this.graph = graph;
    this.cells = cells;
    this.first = first;
    this.uses = new int[graph.nodes()];
    this.absorbed = new boolean[graph.nodes()];
  }

  Program lay(int[] wanted) {
    int leaves = graph.leaves;
    int n = graph.operations();
    for (int w : wanted) {
      if (w >= leaves) {
        // a value that is wanted must have a cell of its own
        uses[w] += 2;
      }
    }
    int live = 0;
    for (int i = n - 1; i >= 0; i--) {
      if (uses[leaves + i] > 0) {
        uses[graph.left[i]]++;
        uses[graph.right[i]]++;
        live++;
      }
    }
    int[] kind = new int[n];
    for (int i = 0; i < n; i++) {
      if (uses[leaves + i] > 0) {
        kind[i] = kind(i);
      }
    }
    for (int i = 0; i < n; i++) {
      if (absorbed[leaves + i]) {
        live--;
      }
    }
    return schedule(kind, live);
  }

  private int kind(int i) {
    if (!graph.isSum[i]) {
      return Program.PRODUCT;
    }
    boolean a = absorbs(graph.left[i]);
    boolean b = absorbs(graph.right[i]);
    if (a) {
      absorbed[graph.left[i]] = true;
    }
    if (b) {
      absorbed[graph.right[i]] = true;
    }
    return a && b ? Program.TWO_PRODUCTS : a || b ? Program.PRODUCT_AND_TERM : Program.SUM;
  }

  private boolean absorbs(int node) {
    int leaves = graph.leaves;
    return node >= leaves && !graph.isSum[node - leaves] && uses[node] == 1;
  }

  /** The operands of an operation, those of what it absorbs in their place; returns how many. */
  private int operandsOf(int i, int[] into) {
    int a = graph.left[i];
    int b = graph.right[i];
    if (absorbed[b] && !absorbed[a]) {
      int swap = a;
      a = b;
      b = swap;
    }
    int n = 0;
    for (int node : new int[] {a, b}) {
      if (absorbed[node]) {
        into[n++] = graph.left[node - graph.leaves];
        into[n++] = graph.right[node - graph.leaves];
      } else {
        into[n++] = node;
      }
    }
    return n;
  }

  private Program schedule(int[] kind, int live) {
    int leaves = graph.leaves;
    int n = graph.operations();
    int[] waits = new int[n];
    int[] usersFrom = new int[n + 1];
    int[] of = new int[4];
    for (int i = 0; i < n; i++) {
      if (isPlaced(i)) {
        int count = operandsOf(i, of);
        for (int k = 0; k < count; k++) {
          if (of[k] >= leaves) {
            usersFrom[of[k] - leaves + 1]++;
            waits[i]++;
          }
        }
      }
    }
    for (int i = 0; i < n; i++) {
      usersFrom[i + 1] += usersFrom[i];
    }
    int[] users = new int[usersFrom[n]];
    int[] fill = Arrays.copyOf(usersFrom, n);
    int[][] ready = new int[Program.KINDS][live];
    int[] head = new int[Program.KINDS];
    int[] tail = new int[Program.KINDS];
    for (int i = 0; i < n; i++) {
      if (isPlaced(i)) {
        int count = operandsOf(i, of);
        for (int k = 0; k < count; k++) {
          if (of[k] >= leaves) {
            users[fill[of[k] - leaves]++] = i;
          }
        }
        if (waits[i] == 0) {
          ready[kind[i]][tail[kind[i]]++] = i;
        }
      }
    }
    int[] kinds = new int[16];
    int[] ends = new int[16];
    int[] operands = new int[live * 4];
    int segments = 0;
    int at = 0;
    int cell = first;
    while (cell < first + live) {
      int next = 0;
      for (int k = 1; k < Program.KINDS; k++) {
        if (tail[k] - head[k] > tail[next] - head[next]) {
          next = k;
        }
      }
      while (head[next] < tail[next]) {
        int i = ready[next][head[next]++];
        cells[leaves + i] = cell++;
        int count = operandsOf(i, of);
        for (int k = 0; k < count; k++) {
          operands[at++] = cells[of[k]];
        }
        for (int u = usersFrom[i]; u < usersFrom[i + 1]; u++) {
          int user = users[u];
          if (--waits[user] == 0) {
            ready[kind[user]][tail[kind[user]]++] = user;
          }
        }
      }
      if (segments == kinds.length) {
        kinds = Arrays.copyOf(kinds, segments * 2);
        ends = Arrays.copyOf(ends, segments * 2);
      }
      kinds[segments] = next;
      ends[segments++] = cell;
    }
    return new Program(
        first,
        cell,
        Arrays.copyOf(kinds, segments),
        Arrays.copyOf(ends, segments),
        Arrays.copyOf(operands, at));
  }

  private boolean isPlaced(int i) {
    return uses[graph.leaves + i] > 0 && !absorbed[graph.leaves + i];
  }
}
