"""A photo of the book's page beside a value."""

from __future__ import annotations

from django.db import migrations, models


class Migration(migrations.Migration):
    dependencies = (("storage", "0002_paired_benches"),)
    operations = (
        migrations.CreateModel(
            name="BookPhoto",
            fields=[
                ("id", models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name="ID")),
                ("book", models.TextField()),
                ("row", models.TextField()),
                ("picture", models.CharField(max_length=64)),
            ],
            options={"db_table": "book_photo"},
        ),
        migrations.AddConstraint(
            model_name="bookphoto",
            constraint=models.UniqueConstraint(fields=["book", "row"], name="book_photo_one_a_row"),
        ),
    )
