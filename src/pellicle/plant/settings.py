"""What is switched on: the applications, the guards of every request, the database and how long a sign-in lasts.

One setting chooses the folder of the data (``PELLICLE_DATA``); everything else follows from it. Importing this writes
nothing.
"""

from __future__ import annotations

import hashlib
import secrets
from pathlib import Path

from pellicle.plant.folder import chosen

HERE = Path(__file__).resolve().parent
DATA = chosen()


def _secret() -> str:
    try:
        return DATA.secret.read_text("utf-8").strip()
    except OSError:  # nothing is served yet
        return secrets.token_urlsafe(48)


def _content() -> str:
    """Return a name for the content of what is served beside the pages, so that browsers may keep it for ever."""
    found = hashlib.sha256()
    for path in sorted(HERE.glob("*/static/**/*")):
        if path.is_file() and path.suffix in {".css", ".js", ".woff2", ".svg"}:
            found.update(path.name.encode())
            found.update(path.read_bytes())
    return found.hexdigest()[:12]


DEBUG = False
SECRET_KEY = _secret()
ALLOWED_HOSTS = ["localhost", "127.0.0.1", "[::1]"]  # a foreign name for this machine is refused
ROOT_URLCONF = "pellicle.plant.urls"
WSGI_APPLICATION = None

INSTALLED_APPS = [
    "django.contrib.auth",
    "django.contrib.contenttypes",
    "django.contrib.sessions",
    "django.contrib.messages",
    "django.contrib.staticfiles",
    "django.forms",
    "django_htmx",
    "pellicle.plant.page",
    "pellicle.plant.audit",
    "pellicle.plant.people",
    "pellicle.plant.today",
]

MIDDLEWARE = [
    "pellicle.plant.page.headers.headers",
    "django.middleware.security.SecurityMiddleware",
    "whitenoise.middleware.WhiteNoiseMiddleware",
    "django.contrib.sessions.middleware.SessionMiddleware",
    "django.middleware.common.CommonMiddleware",
    "django.middleware.csrf.CsrfViewMiddleware",
    "django.middleware.clickjacking.XFrameOptionsMiddleware",
    "django.contrib.auth.middleware.AuthenticationMiddleware",
    "django.contrib.messages.middleware.MessageMiddleware",
    "pellicle.plant.people.sessions.FirstRun",
    "pellicle.plant.people.sessions.SignedIn",
    "django.contrib.auth.middleware.LoginRequiredMiddleware",  # every page is private unless it says otherwise
    "pellicle.plant.people.sessions.OwnPassword",
    "django_htmx.middleware.HtmxMiddleware",
]

TEMPLATES = [
    {
        "BACKEND": "django.template.backends.django.DjangoTemplates",
        "APP_DIRS": True,
        "OPTIONS": {
            "context_processors": [
                "django.template.context_processors.request",
                "django.contrib.auth.context_processors.auth",
                "django.contrib.messages.context_processors.messages",
                "pellicle.plant.page.context.every_page",
            ],
            "builtins": ["pellicle.plant.page.templatetags.words"],
        },
    }
]
FORM_RENDERER = "django.forms.renderers.TemplatesSetting"

DATABASES = {
    "default": {
        "ENGINE": "django.db.backends.sqlite3",
        "NAME": DATA.database,
        "OPTIONS": {
            # a writer takes its lock at once, so that reading and then writing cannot deadlock
            "transaction_mode": "IMMEDIATE",
            "timeout": 10,
            # FULL: what was acknowledged survives a power cut
            "init_command": "PRAGMA journal_mode=WAL; PRAGMA synchronous=FULL; PRAGMA foreign_keys=ON;",
        },
    }
}
DEFAULT_AUTO_FIELD = "django.db.models.BigAutoField"

AUTH_USER_MODEL = "people.Person"
AUTHENTICATION_BACKENDS = ["django.contrib.auth.backends.ModelBackend"]
PASSWORD_HASHERS = ["django.contrib.auth.hashers.Argon2PasswordHasher"]
AUTH_PASSWORD_VALIDATORS = [
    {
        "NAME": "django.contrib.auth.password_validation.UserAttributeSimilarityValidator",
        "OPTIONS": {"user_attributes": ("name",)},
    },
    {"NAME": "django.contrib.auth.password_validation.MinimumLengthValidator", "OPTIONS": {"min_length": 10}},
    {"NAME": "django.contrib.auth.password_validation.CommonPasswordValidator"},
    {"NAME": "django.contrib.auth.password_validation.NumericPasswordValidator"},
]
LOGIN_URL = "sign-in"
LOGIN_REDIRECT_URL = "today"

SESSION_COOKIE_AGE = 12 * 3600
SESSION_COOKIE_SAMESITE = "Lax"
SESSION_COOKIE_HTTPONLY = True
CSRF_COOKIE_HTTPONLY = True
CSRF_COOKIE_SAMESITE = "Lax"
X_FRAME_OPTIONS = "DENY"
SECURE_REFERRER_POLICY = "same-origin"
DATA_UPLOAD_MAX_MEMORY_SIZE = 1_000_000

# Whether phones and tablets of the plant reach this server: then everybody signs in. Waits for encryption.
PLANT_LAN = False

USE_I18N = True
USE_TZ = True
TIME_ZONE = "UTC"  # as kept; pages show the clock of the machine
LANGUAGE_CODE = "en"
LANGUAGES = [("en", "English")]

STATIC_URL = f"/static/{_content()}/"
WHITENOISE_USE_FINDERS = True
WHITENOISE_AUTOREFRESH = False
WHITENOISE_MAX_AGE = 365 * 24 * 3600  # the address changes with the content

LOGGING = {
    "version": 1,
    "disable_existing_loggers": False,
    "handlers": {"stderr": {"class": "logging.StreamHandler"}},
    "loggers": {"django": {"handlers": ["stderr"], "level": "ERROR"}},
}
