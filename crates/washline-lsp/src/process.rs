//! Whether another process lives.

/// A process that lived when it was named.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Process(u32);

impl Process {
    /// The process `id`; none where there is no such process to be seen from here, as from
    /// inside a container.
    pub(crate) fn living(id: u32) -> Option<Self> {
        Self(id).lives().then_some(Self(id))
    }

    /// Whether it lives still.
    #[cfg(unix)]
    pub(crate) fn lives(self) -> bool {
        use rustix::io::Errno;
        use rustix::process::{Pid, test_kill_process};

        let pid = i32::try_from(self.0).ok().and_then(Pid::from_raw);
        pid.is_some_and(|pid| test_kill_process(pid) != Err(Errno::SRCH))
    }

    /// Whether it lives still: here the end of the stream alone tells.
    #[cfg(not(unix))]
    pub(crate) fn lives(self) -> bool {
        self.0 != 0
    }
}
