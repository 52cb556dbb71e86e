import js from '@eslint/js';
import prettier from 'eslint-config-prettier';
import tseslint from 'typescript-eslint';

export default tseslint.config(
  { ignores: ['dist/', 'node_modules/', 'coverage/'] },
  js.configs.recommended,
  {
    files: ['**/*.ts'],
    extends: [...tseslint.configs.strictTypeChecked, ...tseslint.configs.stylisticTypeChecked],
    languageOptions: { parserOptions: { projectService: true, tsconfigRootDir: import.meta.dirname } },
    rules: {
      '@typescript-eslint/switch-exhaustiveness-check': 'error',
      '@typescript-eslint/consistent-type-imports': 'error',
      '@typescript-eslint/strict-boolean-expressions': 'error',
      '@typescript-eslint/explicit-module-boundary-types': 'error',
      '@typescript-eslint/restrict-template-expressions': ['error', { allowNumber: true }],
      '@typescript-eslint/no-unused-vars': ['error', { argsIgnorePattern: '^_' }],
      'no-console': 'error',
    },
  },
  {
    // The core and the simulated world take time and chance as arguments.
    files: ['src/**/*.ts', 'sim/**/*.ts'],
    rules: {
      'no-restricted-globals': ['error', 'process', 'setTimeout', 'setInterval', 'performance', 'fetch'],
      'no-restricted-properties': [
        'error',
        { object: 'Date', property: 'now', message: 'Time is an argument.' },
        { object: 'Math', property: 'random', message: 'Chance is an argument.' },
      ],
    },
  },
  {
    // Runs in the page of a report, behind the charting library.
    files: ['firmware-host/report/*.js'],
    languageOptions: {
      sourceType: 'script',
      globals: {
        addEventListener: 'readonly',
        devicePixelRatio: 'readonly',
        document: 'readonly',
        Path2D: 'readonly',
        pen: 'readonly',
        uPlot: 'readonly',
      },
    },
  },
  { files: ['tests/**/*.ts'], rules: { '@typescript-eslint/no-non-null-assertion': 'off' } },
  prettier,
);
