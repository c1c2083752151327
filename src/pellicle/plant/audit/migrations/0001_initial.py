"""The tables of the chain; the guards are put on after every migration, see ``guards``."""

from django.db import migrations, models


class Migration(migrations.Migration):
    initial = True

    dependencies = []

    operations = [
        migrations.CreateModel(
            name="Entry",
            fields=[
                ("seq", models.BigIntegerField(primary_key=True, serialize=False)),
                ("at", models.DateTimeField(db_index=True)),
                ("kind", models.CharField(max_length=60)),
                ("subject", models.CharField(db_index=True, max_length=80)),
                ("text", models.TextField()),
                ("hash", models.CharField(max_length=64)),
            ],
            options={
                "db_table": "audit_entry",
                "ordering": ("-seq",),
            },
        ),
        migrations.CreateModel(
            name="Head",
            fields=[
                ("id", models.SmallIntegerField(default=1, primary_key=True, serialize=False)),
                ("seq", models.BigIntegerField()),
                ("hash", models.CharField(max_length=64)),
            ],
            options={
                "db_table": "audit_head",
                "constraints": [models.CheckConstraint(condition=models.Q(("id", 1)), name="audit_head_is_one_row")],
            },
        ),
    ]
