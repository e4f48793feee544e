"""The same work on a Dask cluster, for an academy with many bays; Dask is imported only here."""

from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from functools import partial
from typing import TYPE_CHECKING

from baycue.errors import BaycueError, NotInstalledError
from baycue.folder.clips import Clip
from baycue.folder.engine import Answer, Engine, Score, Stopped, result_of, stopped_by, with_plan
from baycue.folder.processes import one_thread_each
from baycue.keep.record import PlanText

if TYPE_CHECKING:
    from distributed import Client

LOCAL = "local"


@contextmanager
def cluster_engine(scheduler: str, workers: int, score: Score = result_of) -> Iterator[Engine]:
    """An engine on the cluster at an address, such as ``tcp://bay-office:8786``.

    ``local`` starts a cluster of so many workers on this machine, on loopback alone.  Every
    worker needs Baycue of this version and the clips under the same paths.

    Raises BaycueError if Dask is not installed or nobody answers there.
    """
    with _connected(scheduler, workers) as client:

        def run(clips: Sequence[Clip], plan: PlanText) -> Iterator[tuple[Clip, Answer]]:
            return _scored(client, clips, plan, score)

        yield run


@contextmanager
def _connected(scheduler: str, workers: int) -> "Iterator[Client]":
    try:
        from distributed import Client, LocalCluster
    except ImportError:
        raise NotInstalledError(
            '--scheduler needs Dask, which is not installed; pip install "baycue[academy]"'
        ) from None
    if scheduler == LOCAL:
        with (
            LocalCluster(
                n_workers=workers,
                threads_per_worker=1,
                host="127.0.0.1",
                dashboard_address=None,
            ) as cluster,
            Client(cluster) as client,
        ):
            yield client
        return
    try:
        client = Client(scheduler)
    except (OSError, ValueError) as error:
        raise BaycueError(
            f"--scheduler {scheduler}: no Dask scheduler answers there ({error}); "
            f'give an address such as tcp://127.0.0.1:8786, or "{LOCAL}"'
        ) from None
    with client:
        yield client


def _scored(
    client: "Client", clips: Sequence[Clip], plan: PlanText, score: Score
) -> Iterator[tuple[Clip, Answer]]:
    from distributed import as_completed

    work = partial(_beside_others, score, plan)
    waiting = {client.submit(work, clip, pure=False): clip for clip in clips}
    try:
        for done in as_completed(list(waiting)):
            clip = waiting.pop(done)
            error = done.exception()
            yield clip, done.result() if error is None else _stopped_by(error)
            done.release()
    finally:
        client.cancel(list(waiting))


def _beside_others(score: Score, plan: PlanText, clip: Clip) -> bytes:
    one_thread_each()
    return with_plan(score, plan, clip)


def _stopped_by(error: BaseException) -> Stopped:
    from distributed import KilledWorker

    if isinstance(error, KilledWorker):
        return Stopped("the workers that scored it died: a fault, or too little memory")
    return stopped_by(error)
