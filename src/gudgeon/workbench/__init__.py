"""The verbs the faces may call, the ports they need, and the one read model of faces and ``--json``."""
