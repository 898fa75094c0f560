"""The first tables."""

import django.db.models.deletion
from django.db import migrations, models


class Migration(migrations.Migration):
    """Everything at once; `LedgerRow` after `Job`, because its key names it."""

    initial = True
    dependencies = ()
    operations = (
        migrations.CreateModel(
            name="Job",
            fields=[
                ("number", models.TextField(primary_key=True, serialize=False)),
                ("title", models.TextField()),
                ("engine_number", models.TextField(blank=True)),
                ("state", models.TextField(default="open")),
                ("scope", models.TextField()),
                ("opened_at", models.TextField()),
                ("summary", models.TextField(blank=True, default="")),
                ("summary_at", models.PositiveIntegerField(default=0)),
            ],
            options={
                "db_table": "job",
                "indexes": [models.Index(fields=["-opened_at", "-number"], name="job_newest_first")],
            },
        ),
        migrations.CreateModel(
            name="LedgerRow",
            fields=[
                (
                    "pk",
                    models.CompositePrimaryKey(
                        "job", "seq", blank=True, editable=False, primary_key=True, serialize=False
                    ),
                ),
                (
                    "job",
                    models.ForeignKey(
                        db_index=False,
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="rows",
                        to="storage.job",
                    ),
                ),
                ("seq", models.PositiveIntegerField()),
                ("entry", models.UUIDField(unique=True)),
                ("line", models.TextField()),
                ("digest", models.BinaryField(max_length=32)),
            ],
            options={"db_table": "ledger_row"},
        ),
        migrations.CreateModel(
            name="HeadRow",
            fields=[
                (
                    "job",
                    models.OneToOneField(
                        on_delete=django.db.models.deletion.PROTECT,
                        primary_key=True,
                        related_name="head",
                        serialize=False,
                        to="storage.job",
                    ),
                ),
                ("seq", models.PositiveIntegerField()),
                ("digest", models.BinaryField(max_length=32)),
            ],
            options={"db_table": "ledger_head"},
        ),
        migrations.CreateModel(
            name="BookText",
            fields=[
                ("sha256", models.CharField(max_length=64, primary_key=True, serialize=False)),
                ("name", models.TextField()),
                ("edition", models.TextField()),
                ("text", models.TextField()),
                ("added_at", models.TextField()),
            ],
            options={"db_table": "book"},
        ),
        migrations.CreateModel(
            name="ShelfText",
            fields=[
                ("id", models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name="ID")),
                ("text", models.TextField()),
                ("added_at", models.TextField()),
            ],
            options={"db_table": "shelf"},
        ),
        migrations.CreateModel(
            name="Person",
            fields=[
                ("id", models.CharField(max_length=64, primary_key=True, serialize=False)),
                ("name", models.TextField()),
                ("phone", models.TextField(blank=True, default="")),
            ],
            options={"db_table": "person"},
        ),
    )
