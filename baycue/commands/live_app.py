"""Practice through a camera."""

import typer

from baycue.commands import live_options as given
from baycue.commands.options import OUT, SAFETY, Tones
from baycue.commands.terminal import terminal
from baycue.errors import BaycueError

live_app = typer.Typer()


@live_app.command(epilog=SAFETY)
def live(
    source: given.Source,
    plan: given.Plan,
    size: given.Size = "1280x720",
    fps: given.Fps = 60.0,
    exposure: given.Exposure = None,
    mjpg: given.Mjpg = True,
    feedback: given.Feedback = "at-once",
    window: given.Window = True,
    display: given.Display = 0,
    full_screen: given.FullScreen = False,
    sound: given.Sound = True,
    sound_device: given.SoundDevice = None,
    volume: given.Volume = 1.0,
    tones: Tones = "standard",
    microphone: given.Microphone = None,
    skip_set_up: given.SkipSetUp = False,
    keep: given.Keep = None,
    no_keep: given.NoKeep = False,
    keep_as: given.KeepAs = None,
    compact: given.Compact = True,
    vitals: given.Vitals = None,
    out: given.Out = OUT,
    against: given.Against = None,
    against_plan: given.AgainstPlan = None,
    blur_faces: given.BlurFaces = False,
) -> None:
    """Watch a golfer through a camera and answer every swing.

    First the set-up check: it ends by itself once it has stood as go for two seconds, or with
    the first swing; key A goes on whatever it says. Then pass, fail or too close to call by a
    tone and on the big screen. A camera or sound card that is lost is told of and opened again.
    Every swing is filmed and kept (`baycue log`), on this machine only.

    Example: `baycue live --source 0 --plan configs/left_hander_knee.yaml --exposure 4`
    """
    from baycue.capture.settings import CameraSettings
    from baycue.commands.keeping import KeepRequest
    from baycue.commands.live import LiveRequest, picture_size, run_live
    from baycue.cues.sound_device import SoundChoice
    from baycue.cues.voice_catalogue import voice_named
    from baycue.live.feedback import feedback_mode

    try:
        width_px, height_px = picture_size(size)
        mode = feedback_mode(feedback)
    except ValueError as error:
        raise BaycueError(str(error)) from None
    request = LiveRequest(
        source,
        plan,
        CameraSettings(width_px, height_px, fps, exposure, mjpg),
        mode,
        window,
        sound,
        full_screen,
        display,
        SoundChoice(sound_device, volume),
        voice_named(tones),
        microphone,
        skip_set_up,
        KeepRequest(keep, no_keep, keep_as, compact),
        vitals,
        out=out,
        against=against,
        against_plan=against_plan,
        blur_faces=blur_faces,
    )
    run_live(request, terminal())
