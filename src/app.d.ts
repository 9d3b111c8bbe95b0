/// <reference types="@sveltejs/kit" />
