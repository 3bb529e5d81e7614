"""The systemd unit that keeps the server running: printed, for a person to look at and install."""

import getpass
import sys
from pathlib import Path

PROJECT = Path(__file__).resolve().parents[2]

UNIT = """\
# To install: save as /etc/systemd/system/teepiece.service, then
#   systemctl daemon-reload && systemctl enable --now teepiece
# What it prints on its first start, the set-up code among it: journalctl -u teepiece
[Unit]
Description=Teepiece, the workshop's server
After=network-online.target
Wants=network-online.target

[Service]
User={user}
WorkingDirectory={folder}
ExecStart={python} -m api serve --data {data}
Restart=on-failure
RestartSec=5
KillSignal=SIGTERM
TimeoutStopSec=30
UMask=0077
NoNewPrivileges=yes
CapabilityBoundingSet=
PrivateTmp=yes
PrivateDevices=yes
ProtectSystem=full
ProtectKernelTunables=yes
ProtectKernelModules=yes
ProtectKernelLogs=yes
ProtectControlGroups=yes
ProtectClock=yes
ProtectHostname=yes
RestrictAddressFamilies=AF_INET AF_INET6 AF_UNIX
RestrictNamespaces=yes
RestrictRealtime=yes
RestrictSUIDSGID=yes
LockPersonality=yes
MemoryMax=3G
TasksMax=512

[Install]
WantedBy=multi-user.target
"""


def unit(data: Path) -> str:
    """The unit for this checkout, this Python and this user."""
    return UNIT.format(
        user=getpass.getuser(),
        folder=_escaped(str(PROJECT)),
        python=_quoted(sys.executable),
        data=_quoted(str(data.resolve())),
    )


def _escaped(text: str) -> str:
    """A percent sign is doubled (systemd.unit, specifiers)."""
    return text.replace("%", "%%")


def _quoted(text: str) -> str:
    """One word of a command line (systemd.service, command lines)."""
    inner = _escaped(text).replace("\\", "\\\\").replace('"', '\\"').replace("$", "$$")
    return f'"{inner}"'
