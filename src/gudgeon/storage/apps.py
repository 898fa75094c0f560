"""The Django app of the tables."""

from django.apps import AppConfig


class StorageConfig(AppConfig):
    """Named, so that the tables' names do not depend on where the package lies."""

    name = "gudgeon.storage"
    label = "storage"
    default_auto_field = "django.db.models.BigAutoField"
