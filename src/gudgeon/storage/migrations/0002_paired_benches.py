"""Benches that may come in over a network, and the codes that pair them."""

from __future__ import annotations

from django.db import migrations, models


class Migration(migrations.Migration):
    dependencies = (("storage", "0001_initial"),)

    operations = (
        migrations.CreateModel(
            name="PairedBench",
            fields=[
                ("id", models.CharField(max_length=64, primary_key=True, serialize=False)),
                ("name", models.TextField()),
                ("paired_at", models.TextField()),
                ("ended_at", models.TextField(blank=True, default="")),
            ],
            options={"db_table": "paired_bench"},
        ),
        migrations.CreateModel(
            name="PairingCode",
            fields=[
                ("id", models.CharField(max_length=64, primary_key=True, serialize=False)),
                ("until", models.TextField()),
            ],
            options={"db_table": "pairing_code"},
        ),
    )
