package org.faultwright.cli.dialogue;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.CancellationException;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import org.faultwright.casefile.CaseFile;
import org.faultwright.diagnosis.Answer;
import org.faultwright.diagnosis.Diagnosis;
import org.faultwright.diagnosis.Engine;
import org.faultwright.pack.Pack;

/**
 * Answers to what may be said next, worked out beside while somebody is at work on the step: so the
 * next screen is there at once. An answer depends on nothing but the case, so that it is the same
 * whoever works it out. Confined to one thread but for the one that it keeps.
 */
final class Foresight implements AutoCloseable {

  private final Engine engine;
  private final Pack pack;
  private final ExecutorService beside =
      Executors.newSingleThreadExecutor(
          work -> {
            Thread thread = new Thread(work, "working out answers");
            thread.setDaemon(true);
            return thread;
          });
  private final Map<CaseFile, Future<Answer>> coming = new LinkedHashMap<>();
  private volatile Optional<CaseFile> atWork = Optional.empty();

  Foresight(Engine engine, Pack pack) {
    this.engine = engine;
    this.pack = pack;
  }

  /** Begins on these cases, the first first; what was begun before and is not among them stops. */
  void begin(List<CaseFile> cases) {
    coming
        .entrySet()
        .removeIf(
            old -> {
              boolean unwanted = !cases.contains(old.getKey());
              if (unwanted) {
                old.getValue().cancel(false);
              }
              return unwanted;
            });
    for (CaseFile caseFile : cases) {
      coming.computeIfAbsent(caseFile, c -> beside.submit(() -> answer(c)));
    }
  }

  private Answer answer(CaseFile caseFile) {
    atWork = Optional.of(caseFile);
    try (Diagnosis diagnosis = engine.resume(pack, caseFile)) {
      return diagnosis.answer();
    }
  }

  /**
   * The answer to a case, once it is there; empty: it is not being worked out, and is not waited
   * for behind others either.
   */
  Optional<Answer> of(CaseFile caseFile) {
    Future<Answer> answer = coming.get(caseFile);
    if (answer == null) {
      return Optional.empty();
    }
    if (!answer.isDone() && !atWork.equals(Optional.of(caseFile))) {
      answer.cancel(false);
      return Optional.empty();
    }
    try {
      return Optional.of(answer.get());
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
      return Optional.empty();
    } catch (ExecutionException | CancellationException e) {
      return Optional.empty(); // whoever asks works it out, and meets the same trouble
    }
  }

  /** Waits until nothing is being worked out any more, however that ended. */
  void await() {
    for (Future<Answer> answer : coming.values()) {
      try {
        answer.get();
      } catch (InterruptedException e) {
        Thread.currentThread().interrupt();
        return;
      } catch (ExecutionException | CancellationException e) {
        continue; // whoever asks for it hears of it
      }
    }
  }

  @Override
  public void close() {
    beside.shutdownNow();
  }
}
