package org.faultwright.packs;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.concurrent.Callable;
import java.util.concurrent.CyclicBarrier;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import java.util.stream.IntStream;
import org.faultwright.casefile.CaseFile;
import org.faultwright.diagnosis.Answer;
import org.faultwright.diagnosis.Diagnosis;
import org.faultwright.diagnosis.Engine;
import org.faultwright.pack.Pack;
import org.junit.jupiter.api.Test;

/** One engine for a whole shop: many threads, and many cases in a day. */
class SharedEngineTest {

  private static final int THREADS = 8;
  private static final int CASES = 4;
  private static final int OPENED = 10_000;

  /** One in so many is asked for its answer, and so opens a working memory. */
  private static final int ANSWERED = 25;

  /** Generous: a working memory that is never closed keeps close to a megabyte. */
  private static final long MOST_BYTES_KEPT = 4L << 20;

  private static final PackFolder CHARGING =
      PackFolder.all().stream()
          .filter(f -> f.path().endsWith("wren-handset/charging"))
          .findFirst()
          .orElseThrow();

  private final Pack pack = CHARGING.pack();
  private final List<CaseFile> all = List.copyOf(CHARGING.cases(pack).values());
  private final List<CaseFile> cases = some(all);

  /** Facts that cannot all be true take the rules all the way and cost no weighing of steps. */
  private final List<CaseFile> clashing =
      all.stream().filter(c -> c.name().startsWith("impossible-")).toList();

  /** A few cases from all over the list: what they observe takes a network of its own each. */
  private static List<CaseFile> some(List<CaseFile> all) {
    return IntStream.range(0, CASES).mapToObj(i -> all.get(i * all.size() / CASES)).toList();
  }

  @Test
  void answers_areThoseOfTheSerialRun_whenEightThreadsShareAnEngine() throws Exception {
    Engine alone = Engine.create();
    List<Answer> serial = cases.stream().map(c -> answer(alone, c)).toList();
    assertThat(serial).hasSize(CASES).doesNotHaveDuplicates();

    Engine shared = Engine.create();
    ExecutorService threads = Executors.newFixedThreadPool(THREADS);
    try {
      CyclicBarrier start = new CyclicBarrier(THREADS);
      List<Future<List<Answer>>> runs = new ArrayList<>();
      for (int t = 0; t < THREADS; t++) {
        runs.add(threads.submit(run(shared, start, t * cases.size() / THREADS)));
      }
      for (Future<List<Answer>> run : runs) {
        assertThat(run.get()).isEqualTo(serial);
      }
    } finally {
      threads.shutdownNow();
    }
  }

  /** All cases from another one on, so that the threads meet on an engine that is still cold. */
  private Callable<List<Answer>> run(Engine shared, CyclicBarrier start, int from) {
    return () -> {
      start.await();
      List<Answer> answers = new ArrayList<>(Collections.nCopies(cases.size(), null));
      for (int i = 0; i < cases.size(); i++) {
        int at = (from + i) % cases.size();
        answers.set(at, answer(shared, cases.get(at)));
      }
      return answers;
    };
  }

  @Test
  void nothing_isKept_whenTenThousandDiagnosesWereOpenedAndClosed() {
    Engine engine = Engine.create();
    // Networks are kept for reuse, so that the cases used are all answered before it counts.
    openAndClose(engine, 4 * ANSWERED);
    long before = bytesInUse();
    openAndClose(engine, OPENED);
    assertThat(bytesInUse() - before).isLessThan(MOST_BYTES_KEPT);
  }

  private void openAndClose(Engine engine, int times) {
    for (int i = 0; i < times; i++) {
      try (Diagnosis diagnosis =
          engine.resume(pack, clashing.get(i / ANSWERED % clashing.size()))) {
        if (i % ANSWERED == 0) {
          assertThat(diagnosis.answer().posterior()).isEmpty();
        }
      }
    }
  }

  private Answer answer(Engine engine, CaseFile caseFile) {
    try (Diagnosis diagnosis = engine.resume(pack, caseFile)) {
      return diagnosis.answer();
    }
  }

  private static long bytesInUse() {
    System.gc();
    System.gc();
    Runtime runtime = Runtime.getRuntime();
    return runtime.totalMemory() - runtime.freeMemory();
  }
}
