"""What the server's worker serves."""

from __future__ import annotations

import os

from django.core.wsgi import get_wsgi_application

os.environ.setdefault("DJANGO_SETTINGS_MODULE", "gudgeon.wiring.settings")
application = get_wsgi_application()
