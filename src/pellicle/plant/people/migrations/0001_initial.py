"""The tables of people and of failed tries to sign in."""

from django.db import migrations, models


class Migration(migrations.Migration):
    initial = True

    dependencies = []

    operations = [
        migrations.CreateModel(
            name="Person",
            fields=[
                ("id", models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name="ID")),
                ("password", models.CharField(max_length=128, verbose_name="password")),
                ("last_login", models.DateTimeField(blank=True, null=True, verbose_name="last login")),
                ("name", models.CharField(max_length=60)),
                ("name_key", models.CharField(max_length=120, unique=True)),
                ("role", models.CharField(max_length=10)),
                ("pin", models.CharField(blank=True, max_length=128)),
                ("password_given", models.BooleanField(default=False)),
                ("is_active", models.BooleanField(default=True)),
                ("made_at", models.DateTimeField(auto_now_add=True)),
            ],
            options={
                "db_table": "person",
                "ordering": ("name_key",),
            },
        ),
        migrations.CreateModel(
            name="Attempt",
            fields=[
                ("id", models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name="ID")),
                ("name_key", models.CharField(db_index=True, max_length=120)),
                ("address", models.CharField(db_index=True, max_length=64)),
                ("at", models.DateTimeField(db_index=True)),
            ],
            options={
                "db_table": "sign_in_attempt",
            },
        ),
    ]
